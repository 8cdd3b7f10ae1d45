// SPDX-License-Identifier: MIT
#include "sheet/raw_scan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include "sheet/bytes.hpp"
#include "sheet/raw_text.hpp"
#include "sheet/wording.hpp"

namespace ampstair::sheet {

namespace {

using diagnostics::Place;

constexpr std::size_t deepest = 32;  // sheets use five or so
constexpr int most_faults = 100;     // more is not a sheet
constexpr auto none = std::string_view::npos;

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
    const auto told = comment_slip(rest, empty ? key_ : "", hides ? brackets_.back().open : '\0');
    tell("E101", here(original_at(at_)), told.what, told.remedy);
    line_[at_] = spoiled_mark;
    token_start_ = false;
    value_begin_ = at_;
    ++at_;
    return true;
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
      mend_missing_comma();
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

  /// "{gauge: No. 12 diameter: 2 mm}": a second key within one value.
  void mend_missing_comma() {
    if (brackets_.empty() || brackets_.back().open != '{' || !key_pending_ ||
        value_begin_ == none) {
      return;
    }
    const auto space = line_.rfind(' ', at_);
    if (space == none || space < value_begin_) {
      return;
    }
    tell("E107", here(original_at(space + 1)),
         fmt::format("a comma is missing before '{}'.",
                     excerpt(line_.substr(space + 1, at_ - space - 1))),
         "separate the keys inside { } by commas, or put a text that holds ': ' in quotes");
    line_[space] = ',';
    value_begin_ = space + 1;
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
    const auto told = decimal_comma_slip(std::string_view(line_).substr(value_begin_));
    tell("E113", here(original_at(value_begin_)), told.what, told.remedy);
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
    const auto told = anchor_slip(line_.substr(begin, end - begin));
    tell("E104", here(original_at(begin)), told.what, told.remedy);
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
