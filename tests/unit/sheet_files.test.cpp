// SPDX-License-Identifier: MIT
#include <unistd.h>

#include <catch2/catch.hpp>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>

#include "sheet_rig.hpp"

using namespace rig;
namespace fs = std::filesystem;

namespace {

/// A file of its own for one test, gone afterwards.
class Scratch {
 public:
  explicit Scratch(const std::string& content)
      : path_(fs::temp_directory_path() /
              ("ampstair-sheet-" + std::to_string(getpid()) + "-" + std::to_string(count_++))) {
    std::ofstream(path_, std::ios::binary) << content;
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  [[nodiscard]] const fs::path& path() const { return path_; }

 private:
  static inline int count_ = 0;
  fs::path path_;
};

std::string told(const fs::path& path) {
  ProblemList problems;
  const auto document = read_document(path, problems);
  const auto sorted = problems.sorted();
  if (sorted.empty()) {
    return document.root ? "fine" : "nothing told";
  }
  const auto& first = sorted.front();
  return std::to_string(first.place.line) + ":" + std::to_string(first.place.column) + " " +
         first.code;
}

double seconds(std::string_view text, Told& codes_told) {
  const auto begin = std::chrono::steady_clock::now();
  codes_told = codes(text);
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

std::string repeated(std::string_view unit, std::size_t bytes) {
  std::string text;
  while (text.size() < bytes) {
    text += unit;
  }
  return text;
}

}  // namespace

TEST_CASE("files that are no sheets are told as such") {
  CHECK(told("no-such-file.yaml") == "0:0 E001");
  CHECK(told(fs::temp_directory_path()) == "0:0 E002");
  CHECK(told("/dev/null") == "0:0 E003");
  CHECK(told(Scratch("").path()) == "0:0 E007");
  CHECK(told(Scratch("\n  \n# only a comment\n").path()) == "0:0 E007");
  CHECK(told(Scratch("---\n").path()) == "0:0 E007");
  CHECK(told(Scratch("title: x\n").path()) == "fine");
  CHECK(told(Scratch(std::string(10'000'000, 'x')).path()) == "0:0 E004");
}

TEST_CASE("an unreadable file is told as such") {
  CHECK(told("/proc/self/mem") == "0:0 E003");  // a regular file that not even root reads from 0
  const Scratch scratch("title: x\n");
  fs::permissions(scratch.path(), fs::perms::none);
  CHECK(told(scratch.path()) == (geteuid() == 0 ? "fine" : "0:0 E003"));
}

TEST_CASE("bytes that are no text are told with their place") {
  CHECK(told(Scratch("title: x\ngauge: \xFF\n").path()) == "2:8 E006");
  CHECK(told(Scratch("title: S\xFC"
                     "d\n")
                 .path()) == "1:9 E006");
  CHECK(told(Scratch("title: \xC0\x80\n").path()) == "1:8 E006");      // overlong
  CHECK(told(Scratch("title: \xED\xA0\x80\n").path()) == "1:8 E006");  // surrogate
  CHECK(told(Scratch("title: \xE2\x82").path()) == "1:8 E006");        // cut off
  CHECK(told(Scratch(std::string("title: a\0b\n", 11)).path()) == "1:9 E005");
  CHECK(told(Scratch("title: \x1B[31m\n").path()) == "1:8 E005");
  CHECK(told(Scratch("title: \x7F\n").path()) == "1:8 E005");
  CHECK(told(Scratch("\xFF\xFEt\0i\0").path()) == "1:1 E006");  // UTF-16
  CHECK(told(Scratch("title: Süd 12 °C €\n").path()) == "fine");
}

TEST_CASE("noise gives a quick error and no crash") {
  constexpr std::size_t bytes = 4'000'000;
  for (const auto* unit :
       {"{",       "[",        "{a: ",       "[[a, ",     "- ", "? ",   "a: ",    "a:\n",
        "\"",      "'",        "a: {\n",     "- - - -\n", "#",  " #",   "&a ",    "*a ",
        "!a ",     "\t",       "\ta\n",      "|\n",       "}",  "]",    ",",      "“",
        "a: “x\n", "a: 0,5\n", "{a: 0,5}\n", "x",         "\n", "- \n", "a: 1\n", "-\n ",
        "%x\n",    "---\n",    "...\n",      "key",       "\\"}) {
    CAPTURE(unit);
    Told noise;
    CHECK(seconds(repeated(unit, bytes), noise) < 20.0);
    CHECK_FALSE(noise.empty());
    CHECK(noise.size() <= 120);
  }
}

TEST_CASE("deep nesting is refused, not followed") {
  CHECK(codes("title: " + repeated("[", 40) + "\n") == Told{"1:40 E105"});
  std::string stairs;
  for (int i = 0; i < 60; ++i) {
    stairs += std::string(static_cast<std::size_t>(i), ' ') + "a:\n";
  }
  CHECK(codes(stairs) == Told{"49:49 E105"});
}

TEST_CASE("random mutilations of a sheet never crash the reader") {
  const std::string sheet =
      "title: \"a, b\"\nlayers:\n  - {material: a, thickness: {best: 1 mm, low: 0.9 mm, high: 2 "
      "mm}}\nrun: [{piece: open, length: 1.1 m}, {piece: tube, length: 1 m, bore: 9 mm}]\naround: "
      "{air: 11 degC}\narrangements:\n  - name: x\n    change: [{piece: y}]\n";
  const std::string alphabet = " \t\n{}[],:#'\"-|>&*!%@0a\\\xC3\xBC";
  constexpr unsigned seed = 20260311;
  CAPTURE(seed);
  std::mt19937 random(seed);
  int faulty = 0;
  for (int i = 0; i < 5000; ++i) {
    std::string broken = sheet;
    for (int k = 0; k < 1 + i % 4; ++k) {
      broken[random() % broken.size()] = alphabet[random() % alphabet.size()];
    }
    faulty += codes(broken).empty() ? 0 : 1;
  }
  CHECK(faulty > 2500);
}
