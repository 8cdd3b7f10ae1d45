// SPDX-License-Identifier: MIT
#include "sheet/raw_scan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include "sheet/bytes.hpp"
#include "sheet/wording.hpp"

namespace ampstair::sheet {

namespace {

using diagnostics::Place;

constexpr std::size_t deepest = 32;  // sheets use five or so
constexpr int most_faults = 100;     // more is not a sheet
constexpr auto none = std::string_view::npos;

bool digit(char c) {
  return std::isdigit(static_cast<unsigned char>(c)) != 0;
}
bool blank(char c) {
  return c == ' ' || c == '\t';
}
std::size_t indent_of(std::string_view line) {
  return std::min(line.find_first_not_of(" \t"), line.size());
}

/// Bytes of a typeset quotation mark at i, else 0: U+2018..U+201F.
std::size_t typeset_quote(std::string_view line, std::size_t i) {
  const bool is = i + 2 < line.size() && line[i] == '\xE2' && line[i + 1] == '\x80' &&
                  line[i + 2] >= '\x98' && line[i + 2] <= '\x9F';
  return is ? 3 : 0;
}

bool begins_block_scalar(std::string_view rest) {
  auto end = std::min(rest.find_first_not_of("|>+-0123456789"), rest.size());
  const auto after = std::min(rest.find_first_not_of(" \t", end), rest.size());
  return after == rest.size() || (rest[after] == '#' && after > end);
}

/// Closing brackets in a comment's text that close nothing within it.
int closers_hidden(std::string_view comment) {
  int open = 0;
  int hidden = 0;
  for (const char c : comment) {
    if (c == '{' || c == '[') {
      ++open;
    } else if (c == '}' || c == ']') {
      open > 0 ? --open : ++hidden;
    }
  }
  return hidden;
}

class Scanner {
 public:
  Scanner(const std::string& name, diagnostics::ProblemList& problems)
      : name_(name), problems_(problems) {}

  Mended scan(std::string_view text) {
    std::size_t begin = 0;
    while (begin <= text.size() && mended_.readable) {
      const auto end = std::min(text.find('\n', begin), text.size());
      ++number_;
      line(text.substr(begin, end - begin));
      if (end < text.size()) {
        mended_.text += '\n';
      }
      begin = end + 1;
    }
    finish();
    return std::move(mended_);
  }

 private:
  struct Bracket {
    char open;
    Place place;
    int line;
    std::size_t indent;
  };

  void tell(std::string code, Place place, std::string what, std::string remedy) {
    problems_.error(std::move(code), std::move(place), std::move(what), std::move(remedy));
    mended_.faulty = true;
    if (++faults_ >= most_faults) {
      mended_.readable = false;
    }
  }
  [[nodiscard]] Place here(std::size_t byte) const {
    return {name_, number_, column_of(original_, byte)};
  }

  void line(std::string_view raw) {
    original_ = raw;
    line_ = raw;
    indent_ = indent_of(raw);
    if (block_scalar_) {
      if (indent_ == raw.size() || indent_ > *block_scalar_) {
        mended_.text += raw;
        return;
      }
      block_scalar_.reset();
    }
    if (quote_ == '\0' && indent_ < raw.size() && raw[indent_] != '#' && raw[indent_] != '\r') {
      close_what_cannot_go_on();
      expand_tabs();
      previous_indent_ = brackets_.empty() ? indent_of(line_) : previous_indent_;
    }
    value_begin_ = none;  // counted within a line
    if (brackets_.empty() && quote_ == '\0') {
      token_start_ = true;
    }
    walk();
    const auto offset = mended_.text.size();
    mended_.text += line_;
    if (content_end_ > 0) {
      content_ = offset + content_end_;
    }
  }

  /// YAML wants what stands inside brackets indented further than the line they began on.
  void close_what_cannot_go_on() {
    if (brackets_.empty() || indent_ > brackets_.front().indent) {
      return;
    }
    const auto rest = std::string_view(original_).substr(indent_);
    const auto colon = rest.find(':');
    const bool item = rest.rfind("- ", 0) == 0;
    const bool key =
        colon != none && colon > 0 && rest.substr(0, colon).find_first_of(" {}[],'\"#") == none;
    if (item || key) {
      close_all();
    }
  }

  void close_all() {
    std::string closers;
    while (!brackets_.empty()) {
      const Bracket open = brackets_.back();
      const char closer = open.open == '{' ? '}' : ']';
      tell("E107", open.place, fmt::format("'{}' is never closed.", open.open),
           fmt::format("add '{}' where it ends", closer));
      closers += closer;
      brackets_.pop_back();
    }
    mended_.text.insert(content_, closers);
  }

  void expand_tabs() {
    const auto tab = line_.find('\t');
    if (tab >= indent_ || !brackets_.empty()) {
      return;
    }
    tell("E100", here(tab), "a tab is used for indentation; YAML allows only spaces.",
         "replace the tab by four spaces");
    const bool item = line_.compare(indent_, 2, "- ") == 0;
    const auto tabs = static_cast<std::size_t>(
        std::count(line_.begin(), line_.begin() + static_cast<std::ptrdiff_t>(indent_), '\t'));
    const auto spaces = item && previous_was_item_ ? previous_indent_ : indent_ + 3 * tabs;
    line_.replace(0, indent_, spaces, ' ');
    mended_.shifts[number_] = static_cast<int>(spaces) - static_cast<int>(indent_);
  }

  void walk() {
    content_end_ = 0;
    const auto first = indent_of(line_);
    if (brackets_.empty() && quote_ == '\0' && first < line_.size() && line_[first] != '#') {
      previous_was_item_ = line_.compare(first, 2, "- ") == 0;
    }
    for (at_ = first; at_ < line_.size() && mended_.readable;) {
      if (quote_ != '\0') {
        quoted();
      } else if (blank(line_[at_]) || line_[at_] == '\r') {
        ++at_;
        continue;
      } else if (line_[at_] == '#' && (at_ == 0 || blank(line_[at_ - 1]))) {
        if (!comment()) {
          return;
        }
      } else if (token_start_ ? !token() : !inside()) {
        return;
      }
      content_end_ = std::min(at_, line_.size());
    }
  }

  void quoted() {
    if (quote_ == '"' && line_[at_] == '\\') {
      at_ += 2;
      return;
    }
    if (line_[at_] == quote_) {
      if (quote_ == '\'' && at_ + 1 < line_.size() && line_[at_ + 1] == '\'') {
        ++at_;
      } else {
        quote_ = '\0';
      }
    }
    ++at_;
  }

  /// True where the "comment" was meant as text and was mended; the walk goes on.
  bool comment() {
    const auto rest = std::string_view(line_).substr(at_ + 1);
    const bool number = !rest.empty() && digit(rest[0]);
    const bool empty = token_start_ && value_begin_ == none && !key_.empty();
    const bool hides = closers_hidden(rest) > 0;
    if (brackets_.empty() || !(hides || (empty && number))) {
      return false;
    }
    tell_comment(rest, empty, hides);
    line_[at_] = spoiled_mark;
    token_start_ = false;
    value_begin_ = at_;
    ++at_;
    return true;
  }

  void tell_comment(std::string_view rest, bool empty, bool hides) {
    const auto end = std::min(rest.find_first_of(" ,}]"), rest.size());
    const std::string word(rest.substr(0, end));
    std::string so = empty ? fmt::format("'{}' is empty", key_) : "";
    if (hides) {
      so += fmt::format("{}this line's '{}' is never closed", empty ? " and " : "",
                        brackets_.back().open);
    }
    const bool number = !word.empty() && digit(word[0]);
    std::string remedy;
    if (empty && number) {
      remedy = fmt::format("write  {0}: No. {1}   or   {0}: '#{1}'", key_, word);
    } else {
      remedy = fmt::format("leave the '#' out, or put the whole text in quotes");
    }
    tell("E101", here(original_at(at_)),
         fmt::format("the text after a space and '#' is a comment in YAML, so {}.", so), remedy);
  }

  /// Byte of the original line for a byte of the mended one.
  [[nodiscard]] std::size_t original_at(std::size_t byte) const {
    const auto shift = mended_.shifts.find(number_);
    if (shift == mended_.shifts.end()) {
      return byte;
    }
    const auto moved = static_cast<std::ptrdiff_t>(byte) - shift->second;
    return static_cast<std::size_t>(std::max<std::ptrdiff_t>(0, moved));
  }

  /// At the beginning of a key or value. False: the rest of the line is not ours to look at.
  bool token() {
    const char c = line_[at_];
    const bool next_blank = at_ + 1 >= line_.size() || blank(line_[at_ + 1]);
    if (c == '\'' || c == '"') {
      quote_ = c;
      quote_place_ = here(original_at(at_));
      begin_token();
      ++at_;
      return true;
    }
    if (const auto length = typeset_quote(line_, at_); length > 0) {
      mend_typeset_quote(length);
      return true;
    }
    if (c == '{' || c == '[') {
      open();
      return true;
    }
    if (c == '-' && brackets_.empty() && next_blank) {
      key_.clear();
      ++at_;
      return true;
    }
    if ((c == '&' || c == '*' || c == '!') && !next_blank) {
      mend_anchor();
      return true;
    }
    if ((c == '|' || c == '>') && brackets_.empty() &&
        begins_block_scalar(std::string_view(line_).substr(at_))) {
      block_scalar_ = indent_of(line_);
      content_end_ = line_.size();
      return false;
    }
    if (c == '}' || c == ']' || c == ',') {
      return inside();
    }
    begin_token();
    return inside();
  }

  void begin_token() {
    token_start_ = false;
    value_begin_ = at_;
  }

  bool inside() {
    const char c = line_[at_];
    const bool flow = !brackets_.empty();
    const char next = at_ + 1 < line_.size() ? line_[at_ + 1] : ' ';
    if (c == ':' && (blank(next) || next == '\r' || (flow && (next == '{' || next == '[')))) {
      key_ = value_begin_ == none ? "" : line_.substr(value_begin_, at_ - value_begin_);
      key_pending_ = true;
      token_start_ = true;
      value_begin_ = none;
    } else if (flow && c == ',') {
      if (!mend_decimal_comma()) {
        end_entry();
      }
    } else if (flow && (c == '{' || c == '[')) {
      open();
      return true;
    } else if (flow && (c == '}' || c == ']')) {
      close(c);
    }
    ++at_;
    return true;
  }

  void end_entry() {
    token_start_ = true;
    key_pending_ = false;
    value_begin_ = none;
    key_.clear();
  }

  void open() {
    if (brackets_.size() >= deepest) {
      tell("E105", here(original_at(at_)),
           fmt::format("brackets are nested more than {} deep.", deepest),
           "check that this is the file you mean; no sheet needs that");
      mended_.readable = false;
      return;
    }
    brackets_.push_back({line_[at_], here(original_at(at_)), number_, indent_of(original_)});
    end_entry();
    ++at_;
  }

  void close(char c) {
    const Bracket last = brackets_.back();
    const char due = last.open == '{' ? '}' : ']';
    if (c != due) {
      tell("E107", here(original_at(at_)),
           fmt::format("'{}' closes the '{}' of line {}, column {}.", c, last.open, last.place.line,
                       last.place.column),
           fmt::format("write '{}' here, or close the '{}' before", due, last.open));
      line_[at_] = due;
    }
    brackets_.pop_back();
    token_start_ = false;
    key_pending_ = false;
    value_begin_ = none;
  }

  /// "thickness: 0,5 mm" inside braces: YAML would split it in two.
  bool mend_decimal_comma() {
    if (brackets_.back().open != '{' || !key_pending_ || value_begin_ == none ||
        at_ + 1 >= line_.size() || !digit(line_[at_ + 1])) {
      return false;
    }
    const auto head = std::string_view(line_).substr(value_begin_, at_ - value_begin_);
    const auto digits = head.substr(head[0] == '-' || head[0] == '+' ? 1 : 0);
    if (digits.empty() || !std::all_of(digits.begin(), digits.end(), digit)) {
      return false;
    }
    auto end = at_ + 1;
    while (end < line_.size() && digit(line_[end])) {
      ++end;
    }
    const auto number = line_.substr(value_begin_, end - value_begin_);
    const auto stop = std::min(line_.find_first_of(",}]", end), line_.size());
    auto mended = line_.substr(value_begin_, stop - value_begin_);
    mended[at_ - value_begin_] = '.';
    tell("E113", here(original_at(value_begin_)),
         fmt::format("'{}' uses a decimal comma (and inside {{ }} YAML splits it in two).", number),
         fmt::format("write {}", mended));
    line_[at_] = '.';
    return true;
  }

  void mend_typeset_quote(std::size_t length) {
    const auto begin = at_;
    auto end = at_ + length;
    while (end < line_.size() && typeset_quote(line_, end) == 0) {
      ++end;
    }
    const bool closed = end < line_.size();
    const auto stop = closed ? end : std::min(line_.find_first_of(",}]\r#", begin), line_.size());
    tell("E103", here(original_at(begin)),
         fmt::format("a typeset quotation mark ({}) does not quote in YAML.",
                     line_.substr(begin, length)),
         fmt::format("write \"{}\"", excerpt(line_.substr(begin + length, stop - begin - length))));
    const auto past = closed ? end + 3 : stop;
    std::fill(line_.begin() + static_cast<std::ptrdiff_t>(begin),
              line_.begin() + static_cast<std::ptrdiff_t>(past), spoiled_mark);
    begin_token();
    at_ = past;
  }

  void mend_anchor() {
    const auto begin = at_;
    const auto end = std::min(line_.find_first_of(" \t,{}[]\r", at_), line_.size());
    const char c = line_[begin];
    const std::string kind = c == '&' ? "an anchor" : c == '*' ? "an alias" : "a tag";
    tell("E104", here(original_at(begin)),
         fmt::format("'{}' is {} in YAML; sheets hold none, so that each reads the same to "
                     "everybody.",
                     excerpt(line_.substr(begin, end - begin)), kind),
         c == '*' ? "write the value out, or put the text in quotes"
                  : "leave it out, or put the text in quotes");
    const char with = c == '*' ? spoiled_mark : ' ';
    std::fill(line_.begin() + static_cast<std::ptrdiff_t>(begin),
              line_.begin() + static_cast<std::ptrdiff_t>(end), with);
    if (c == '*') {
      begin_token();
    }
    at_ = end;
  }

  void finish() {
    if (!mended_.readable) {
      return;
    }
    if (quote_ != '\0') {
      tell("E107", quote_place_, fmt::format("the quotation mark {} is never closed.", quote_),
           "close it, or double it (or use the other kind) where it is part of the text");
      mended_.readable = false;
      return;
    }
    if (!brackets_.empty()) {
      close_all();
    }
  }

  std::string name_;
  diagnostics::ProblemList& problems_;
  Mended mended_;
  int faults_ = 0;

  int number_ = 0;
  std::string_view original_;
  std::string line_;
  std::size_t indent_ = 0;
  std::size_t at_ = 0;
  std::size_t content_end_ = 0;  ///< of this line, before a comment
  std::size_t content_ = 0;      ///< the same in the mended text, of the last line that had any

  std::vector<Bracket> brackets_;
  char quote_ = '\0';
  Place quote_place_;
  std::optional<std::size_t> block_scalar_;  ///< indentation of the line it began on
  bool token_start_ = true;
  bool key_pending_ = false;  ///< a key stands before the token
  std::size_t value_begin_ = none;
  std::string key_;
  std::size_t previous_indent_ = 0;
  bool previous_was_item_ = false;
};

}  // namespace

Mended scan_raw(std::string_view text, const std::string& name,
                diagnostics::ProblemList& problems) {
  return Scanner(name, problems).scan(text);
}

}  // namespace ampstair::sheet
