// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace ampstair::post::report {

/// Text for a page, in an element or an attribute: no character of it is markup, control characters
/// are shown as what they are not to be, and marks that turn the direction of writing are taken out
/// (Unicode's bidirectional controls), so that a name can neither script nor disorder a page.
std::string escaped(std::string_view text);

/// JSON that may stand inside a script element: no '<' in it.
std::string json_in_page(const nlohmann::json& json);

/// A table of a page. Cells are markup already: what comes from a record goes through escaped().
class Table {
 public:
  enum class Align { left, right };
  struct Column {
    std::string heading;
    Align align = Align::left;
  };

  /// @param id of the element, unique on the page
  /// @param caption text, not markup
  Table(std::string id, std::string caption, std::vector<Column> columns);

  /// @param cells one a column
  void add(const std::vector<std::string>& cells);
  /// A line over the whole width, under the row added last.
  void add_remark(const std::string& markup);
  [[nodiscard]] bool empty() const { return rows_.empty(); }

  /// @param plain the line in plain language under the table, markup
  [[nodiscard]] std::string markup(const std::string& plain = {}) const;

 private:
  std::string id_;
  std::string caption_;
  std::vector<Column> columns_;
  std::string rows_;
};

}  // namespace ampstair::post::report
