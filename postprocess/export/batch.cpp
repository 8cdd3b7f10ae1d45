// SPDX-License-Identifier: MIT
#include "export/batch.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <system_error>
#include <utility>

#include "diagnostics/problem.hpp"

namespace ampstair::post::tables {

namespace {

namespace fs = std::filesystem;

[[noreturn]] void cannot_write(const fs::path& path, const std::string& why) {
  throw diagnostics::InputError("E731",
                                fmt::format("'{}' cannot be written: {}.", path.string(), why),
                                "give a directory that you may write to and that has room");
}

}  // namespace

Batch::Batch(fs::path directory, const std::vector<std::string>& names, bool overwrite)
    : directory_(std::move(directory)) {
  std::error_code failure;
  fs::create_directories(directory_, failure);
  if (failure || !fs::is_directory(directory_)) {
    cannot_write(directory_, failure ? failure.message() : "it is not a directory");
  }
  diagnostics::ProblemList problems;
  for (const auto& name : names) {
    if (!overwrite && fs::exists(directory_ / name)) {
      problems.error("E730", {(directory_ / name).string(), 0, 0}, "the file exists already.",
                     "choose another directory, or add --overwrite");
    }
  }
  if (problems.has_errors()) {
    throw diagnostics::InputError(std::move(problems));
  }
}

Batch::~Batch() {
  out_.close();
  for (const auto& name : begun_) {
    std::error_code ignored;  // what is already gone need not be taken away
    fs::remove(partial(name), ignored);
  }
}

fs::path Batch::partial(const std::string& name) const {
  return directory_ / fmt::format(".{}.{}.partial", name, ::getpid());
}

void Batch::close() {
  if (out_.is_open()) {
    out_.close();
    if (!out_) {
      cannot_write(directory_ / begun_.back(), "the disk may be full");
    }
  }
}

void Batch::begin(const std::string& name) {
  close();
  begun_.push_back(name);
  out_.open(partial(name), std::ios::binary | std::ios::trunc);
  if (!out_) {
    cannot_write(directory_ / name, "no file can be made there");
  }
}

void Batch::write(const std::string& text) {
  out_ << text;
  if (!out_) {
    cannot_write(directory_ / begun_.back(), "the disk may be full");
  }
}

std::vector<fs::path> Batch::publish() {
  close();
  std::vector<fs::path> files;
  for (const auto& name : begun_) {
    std::error_code failure;
    fs::rename(partial(name), directory_ / name, failure);
    if (failure) {
      cannot_write(directory_ / name, failure.message());
    }
    files.push_back(directory_ / name);
  }
  return files;
}

}  // namespace ampstair::post::tables
