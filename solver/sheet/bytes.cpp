// SPDX-License-Identifier: MIT
#include "sheet/bytes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <system_error>

namespace ampstair::sheet {

namespace {

unsigned char byte_at(std::string_view bytes, std::size_t i) {
  return static_cast<unsigned char>(bytes[i]);
}

bool continues(std::string_view bytes, std::size_t i) {
  return i < bytes.size() && (byte_at(bytes, i) & 0xC0U) == 0x80U;
}

/// Bytes of the UTF-8 character at i, 0 if there is none (RFC 3629: no overlong forms, no
/// surrogates, nothing above U+10FFFF).
std::size_t character_at(std::string_view bytes, std::size_t i) {
  const unsigned lead = byte_at(bytes, i);
  if (lead < 0x80U) {
    return 1;
  }
  const std::size_t length = lead >= 0xF0U ? 4 : lead >= 0xE0U ? 3 : 2;
  if (lead < 0xC2U || lead > 0xF4U) {
    return 0;
  }
  for (std::size_t k = 1; k < length; ++k) {
    if (!continues(bytes, i + k)) {
      return 0;
    }
  }
  const unsigned second = byte_at(bytes, i + 1);
  const bool bad = (lead == 0xE0U && second < 0xA0U) || (lead == 0xEDU && second > 0x9FU) ||
                   (lead == 0xF0U && second < 0x90U) || (lead == 0xF4U && second > 0x8FU);
  return bad ? 0 : length;
}

bool is_control(unsigned char byte) {
  return (byte < 0x20U && byte != '\t' && byte != '\n' && byte != '\r') || byte == 0x7FU;
}

diagnostics::Place place_of(std::string_view bytes, std::size_t at, const std::string& name) {
  const auto before = bytes.substr(0, at);
  const auto line = std::count(before.begin(), before.end(), '\n') + 1;
  const auto start = before.rfind('\n') == before.npos ? 0 : before.rfind('\n') + 1;
  return {name, static_cast<int>(line), column_of(bytes.substr(start), at - start)};
}

std::string reason() {
  return errno == 0 ? "no reason given" : std::strerror(errno);
}

}  // namespace

int column_of(std::string_view line, std::size_t byte) {
  const auto before = line.substr(0, std::min(byte, line.size()));
  const auto starts = std::count_if(before.begin(), before.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  });
  return static_cast<int>(starts) + 1;
}

std::optional<std::string> read_bytes(const std::filesystem::path& path,
                                      diagnostics::ProblemList& problems) {
  const auto refuse = [&](std::string code, std::string what, std::string remedy) {
    problems.error(std::move(code), {path.string(), 0, 0}, std::move(what), std::move(remedy));
    return std::nullopt;
  };
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (!std::filesystem::exists(status)) {
    return refuse("E001", "there is no such file.", "check the name and the folder you are in");
  }
  if (std::filesystem::is_directory(status)) {
    return refuse("E002", "this is a directory, not a file.", "name a file in it");
  }
  if (!std::filesystem::is_regular_file(status)) {
    return refuse("E003", "this is not a regular file.", "copy what it holds into a file");
  }
  if (const auto size = std::filesystem::file_size(path, error); !error && size > most_bytes) {
    return refuse("E004",
                  fmt::format("the file has {:.1f} MB, more than any sheet (4 MB).",
                              static_cast<double>(size) / 1e6),
                  "check that it is the file you mean");
  }
  errno = 0;
  std::ifstream file(path, std::ios::binary);
  std::string bytes;
  constexpr std::size_t block = std::size_t{1} << 16U;
  while (file && bytes.size() <= most_bytes) {  // by blocks: not every file tells its size
    const std::size_t held = bytes.size();
    bytes.resize(std::min(held + block, most_bytes + 1));
    file.read(bytes.data() + held, static_cast<std::streamsize>(bytes.size() - held));
    bytes.resize(held + static_cast<std::size_t>(file.gcount()));
  }
  if (!file.is_open() || file.bad()) {
    return refuse("E003", fmt::format("the file cannot be read ({}).", reason()),
                  "check its permissions");
  }
  return bytes;
}

bool is_text(std::string_view bytes, const std::string& name, diagnostics::ProblemList& problems) {
  for (std::size_t i = 0; i < bytes.size();) {
    const std::size_t length = character_at(bytes, i);
    if (length == 0) {
      problems.error("E006", place_of(bytes, i, name),
                     fmt::format("the byte 0x{:02X} is not UTF-8, so this is no text that can be "
                                 "read.",
                                 byte_at(bytes, i)),
                     "save the file as UTF-8 in your editor");
      return false;
    }
    if (is_control(byte_at(bytes, i))) {
      problems.error("E005", place_of(bytes, i, name),
                     fmt::format("the control character 0x{:02X} does not belong in a text.",
                                 byte_at(bytes, i)),
                     "delete it; if the file is full of them, it is not a text or not UTF-8");
      return false;
    }
    i += length;
  }
  return true;
}

}  // namespace ampstair::sheet
