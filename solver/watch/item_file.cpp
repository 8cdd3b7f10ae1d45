// SPDX-License-Identifier: MIT
#include "watch/item_file.hpp"

#include <utility>

#include "diagnostics/problem.hpp"
#include "sheet/mapping.hpp"
#include "watch/item_keys.hpp"

namespace ampstair::watch {

namespace {

struct ItemFile {
  std::vector<ItemSheet> watch;
};

sheet::Mapping<ItemFile> file_keys() {
  sheet::Mapping<ItemFile> keys("watch items", "Watch items alone, to judge a record anew");
  keys.list("watch", &ItemFile::watch, item_keys(), sheet::required(), "the watch items");
  return keys;
}

std::vector<Item> items_in(const sheet::Document& document, diagnostics::ProblemList problems) {
  std::vector<Item> items;
  if (document.root) {
    const auto file = sheet::read(document, file_keys(), problems);
    items = items_of(file.watch, problems);
    if (items.empty() && !problems.has_errors()) {
      problems.error("E174", {document.name, 0, 0}, "no watch items in the file.",
                     "add  watch: [{name: rubber limit, part: rubber, above: 60 degC}]");
    }
  }
  if (problems.has_errors()) {
    throw diagnostics::InputError(std::move(problems));
  }
  return items;
}

}  // namespace

std::vector<Item> read_items(const std::filesystem::path& path) {
  diagnostics::ProblemList problems;
  const auto document = sheet::read_document(path, problems);
  return items_in(document, std::move(problems));
}

std::vector<Item> read_items_text(std::string_view text, std::string name) {
  diagnostics::ProblemList problems;
  const auto document = sheet::read_text(text, std::move(name), problems);
  return items_in(document, std::move(problems));
}

}  // namespace ampstair::watch
