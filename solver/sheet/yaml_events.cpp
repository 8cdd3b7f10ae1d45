// SPDX-License-Identifier: MIT
#include "sheet/yaml_events.hpp"

#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <cstddef>
#include <exception>
#include <sstream>
#include <unordered_map>
#include <utility>
#include <vector>

#include "diagnostics/contract.hpp"
#include "sheet/bytes.hpp"
#include "sheet/wording.hpp"

namespace ampstair::sheet {

namespace {

/// Leaves the parser; what happened is told already.
class Refused : public std::exception {};

/// The parser counts bytes of the mended text; people count characters of the original.
class Places {
 public:
  Places(const Mended& mended, std::string_view original, std::string name)
      : mended_(mended), name_(std::move(name)) {
    for (std::size_t begin = 0; begin <= original.size();) {
      const auto end = std::min(original.find('\n', begin), original.size());
      lines_.push_back(original.substr(begin, end - begin));
      begin = end + 1;
    }
  }

  [[nodiscard]] Place at(const YAML::Mark& mark) const {
    if (mark.line < 0 || static_cast<std::size_t>(mark.line) >= lines_.size()) {
      return {name_, static_cast<int>(lines_.size()), 1};
    }
    const int number = mark.line + 1;
    const auto shift = mended_.shifts.find(number);
    const int moved = shift == mended_.shifts.end() ? 0 : shift->second;
    const auto byte = static_cast<std::size_t>(std::max(0, mark.column - moved));
    return {name_, number, column_of(lines_[static_cast<std::size_t>(mark.line)], byte)};
  }

 private:
  const Mended& mended_;
  std::string name_;
  std::vector<std::string_view> lines_;
};

/// Builds the nodes out of the parser's events.
class Builder final : public YAML::EventHandler {
 public:
  Builder(const Places& places, diagnostics::ProblemList& problems)
      : places_(places), problems_(problems) {}

  [[nodiscard]] Node take() { return std::move(root_); }

  void OnDocumentStart(const YAML::Mark& /*mark*/) override {}
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    Node node;
    node.place = places_.at(mark);
    put(std::move(node));
  }
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    refuse("E104", mark, "an alias stands here; sheets hold none.", "write the value out");
  }
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t /*anchor*/,
                const std::string& value) override {
    refuse_tag(mark, tag);
    Node node;
    node.kind = Node::Kind::scalar;
    node.place = places_.at(mark);
    node.text = value;
    node.spoiled = value.find(spoiled_mark) != std::string::npos;
    put(std::move(node));
  }
  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t /*anchor*/,
                       YAML::EmitterStyle::value /*style*/) override {
    refuse_tag(mark, tag);
    push(Node::Kind::list, mark);
  }
  void OnSequenceEnd() override { pop(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t /*anchor*/,
                  YAML::EmitterStyle::value /*style*/) override {
    refuse_tag(mark, tag);
    push(Node::Kind::mapping, mark);
  }
  void OnMapEnd() override { pop(); }

 private:
  struct Frame {
    Node node;
    std::optional<Entry> entry;                  ///< a key that waits for its value
    std::unordered_map<std::string, int> lines;  ///< of the keys so far
  };
  static constexpr std::size_t deepest = 48;
  static constexpr int most_repeated = 50;

  [[noreturn]] void refuse(std::string code, const YAML::Mark& mark, std::string what,
                           std::string remedy) {
    problems_.error(std::move(code), places_.at(mark), std::move(what), std::move(remedy));
    throw Refused();
  }

  void refuse_tag(const YAML::Mark& mark, const std::string& tag) {
    if (!tag.empty() && tag != "?" && tag != "!") {
      refuse("E104", mark, fmt::format("the tag '{}' stands here; sheets hold none.", excerpt(tag)),
             "leave it out, or put the text in quotes");
    }
  }

  void push(Node::Kind kind, const YAML::Mark& mark) {
    if (stack_.size() >= deepest) {
      refuse("E105", mark, fmt::format("entries are nested more than {} deep.", deepest),
             "check that this is the file you mean; no sheet needs that");
    }
    Frame frame;
    frame.node.kind = kind;
    frame.node.place = places_.at(mark);
    stack_.push_back(std::move(frame));
  }

  void pop() {
    Node node = std::move(stack_.back().node);
    stack_.pop_back();
    put(std::move(node));
  }

  void put(Node node) {
    if (stack_.empty()) {
      root_ = std::move(node);
      return;
    }
    Frame& frame = stack_.back();
    if (frame.node.kind == Node::Kind::list) {
      frame.node.items.push_back(std::move(node));
    } else if (frame.entry) {
      frame.entry->value = std::move(node);
      finish_entry(frame);
    } else {
      begin_entry(frame, std::move(node));
    }
  }

  void begin_entry(Frame& frame, Node key) {
    if (!key.is_scalar()) {
      problems_.error("E108", key.place, "a key must be a word, followed by a colon.",
                      "write  key: value");
      key.spoiled = true;
    }
    frame.entry = Entry{key.spoiled ? std::string() : key.text, key.place, {}};
  }

  /// A key's second value would win in some readers and lose in others.
  void finish_entry(Frame& frame) {
    Entry entry = std::move(*frame.entry);
    frame.entry.reset();
    if (entry.key.empty()) {
      frame.node.lost_key = true;  // told already
      return;
    }
    const auto [first, fresh] = frame.lines.emplace(entry.key, entry.key_place.line);
    if (!fresh) {
      problems_.error("E102", entry.key_place,
                      fmt::format("the key '{}' stands twice in the same mapping (first at line "
                                  "{}).",
                                  excerpt(entry.key), first->second),
                      "keep one of the two");
      if (++repeated_ >= most_repeated) {
        throw Refused();  // noise; the rest would say the same
      }
      return;
    }
    frame.node.entries.push_back(std::move(entry));
  }

  const Places& places_;
  diagnostics::ProblemList& problems_;
  std::vector<Frame> stack_;
  int repeated_ = 0;
  Node root_;
};

void tell(const YAML::Exception& error, const Places& places, diagnostics::ProblemList& problems) {
  const bool colon = error.msg.find("illegal map value") != std::string::npos;
  problems.error("E107", places.at(error.mark),
                 fmt::format("from here on this is not YAML ({}).", excerpt(error.msg)),
                 colon ? "put a text that holds ': ' in quotes, and see whether a key in the line "
                         "above lacks its colon"
                       : "check brackets, quotes, colons and indentation here and in the line "
                         "above");
}

}  // namespace

std::optional<Node> parse_yaml(const Mended& mended, std::string_view original,
                               const std::string& name, diagnostics::ProblemList& problems) {
  const Places places(mended, original, name);
  try {
    std::istringstream stream(mended.text);
    YAML::Parser parser(stream);
    Builder builder(places, problems);
    if (!parser.HandleNextDocument(builder)) {
      return Node{};
    }
    Node root = builder.take();
    Builder second(places, problems);
    if (parser.HandleNextDocument(second)) {
      problems.error("E106", second.take().place,
                     "a second document begins here (after '---'); a sheet is one.",
                     "put it into a file of its own, or delete the line '---'");
    }
    return root;
  } catch (const Refused&) {
    return std::nullopt;
  } catch (const YAML::Exception& error) {
    if (!mended.faulty) {
      tell(error, places, problems);
    }
    return std::nullopt;
  }
}

}  // namespace ampstair::sheet
