// SPDX-License-Identifier: MIT
#include "sheet/document.hpp"

#include <algorithm>
#include <utility>

#include "sheet/bytes.hpp"
#include "sheet/raw_scan.hpp"
#include "sheet/yaml_events.hpp"

namespace ampstair::sheet {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

}  // namespace

const Node* Node::find(const std::string& key) const {
  const auto entry =
      std::find_if(entries.begin(), entries.end(), [&](const Entry& e) { return e.key == key; });
  return entry == entries.end() ? nullptr : &entry->value;
}

Document read_document(const std::filesystem::path& path, diagnostics::ProblemList& problems) {
  const auto bytes = read_bytes(path, problems);
  return bytes ? read_text(*bytes, path.string(), problems)
               : Document{path.string(), {}, std::nullopt};
}

Document read_text(std::string_view text, std::string name, diagnostics::ProblemList& problems) {
  Document document{std::move(name), std::string(text), std::nullopt};
  if (text.size() > most_bytes) {
    problems.error("E004", {document.name, 0, 0}, "the text is longer than any sheet (4 MB).",
                   "check that it is the file you mean");
    return document;
  }
  if (!is_text(text, document.name, problems)) {
    return document;
  }
  if (text.rfind(byte_order_mark, 0) == 0) {
    text.remove_prefix(byte_order_mark.size());
  }
  const Mended mended = scan_raw(text, document.name, problems);
  if (!mended.readable) {
    return document;
  }
  document.root = parse_yaml(mended, text, document.name, problems);
  if (document.root && document.root->kind == Node::Kind::empty && !document.root->spoiled) {
    problems.error("E007", {document.name, 0, 0}, "the file is empty.",
                   "write a sheet into it; `ampstair keys` lists what it may hold");
    document.root.reset();
  }
  return document;
}

}  // namespace ampstair::sheet
