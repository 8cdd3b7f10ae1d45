// SPDX-License-Identifier: MIT
#pragma once

// CONTRACT FOR PARALLEL WORK: the fluent interface below is what scenario/, materials/ and watch/
// declare their keys with. The owner of sheet/ implements it (details may be added, not removed).

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "quantities/dimension.hpp"
#include "sheet/value.hpp"

namespace ampstair::sheet {

using quantities::Dimension;

/// Whether a key must stand in the sheet and what holds when it does not.
struct Need {
  enum class Kind { required, optional, by_default };
  Kind kind = Kind::optional;
  std::string default_text;    ///< parsed like a user's own text
  std::string default_source;  ///< why this default; shown by `check --full` and in the record
};
inline Need required() { return {Need::Kind::required, {}, {}}; }
inline Need optional() { return {Need::Kind::optional, {}, {}}; }
inline Need by_default(std::string text, std::string source) {
  return {Need::Kind::by_default, std::move(text), std::move(source)};
}

/// Bounds of a number in SI; outside is an error (E130).
struct Bounds {
  std::optional<double> least;
  std::optional<double> most;
  bool least_excluded = false;  ///< must be greater than `least`
};

struct Option {
  std::string word;
  std::string help;
};

/// The declared keys of one kind of mapping, bound to the members of T. Each key is declared once:
/// reading, messages, nearest-name hints, `ampstair keys` and the JSON Schema all follow from it.
///
///   static const auto keys = Mapping<SleeveSheet>("sleeve", "Woven sleeving slipped over the wire")
///       .text("name", &SleeveSheet::name, required(), "how other entries refer to this piece")
///       .number("length", &SleeveSheet::length, Dimension::length, {0.0, 1000.0, true}, required(), "...")
///       .choice("fit", &SleeveSheet::fit, {{"tight", "..."}, {"loose", "..."}}, by_default("tight", "..."), "...");
template <class T>
class Mapping {
 public:
  Mapping(std::string name, std::string help);

  Mapping& number(std::string key, Number T::*member, Dimension dimension, Bounds bounds, Need need,
                  std::string help) &;
  Mapping& text(std::string key, Text T::*member, Need need, std::string help) &;
  /// One word out of a list; anything else is an error with the nearest word.
  Mapping& choice(std::string key, Text T::*member, std::vector<Option> options, Need need,
                  std::string help) &;
  /// true or false, nothing else.
  Mapping& truth(std::string key, bool T::*member, bool default_value, std::string help) &;
  Mapping& table(std::string key, Table T::*member, Dimension dimension, Bounds bounds, Need need,
                 std::string help) &;
  template <class U>
  Mapping& mapping(std::string key, std::optional<U> T::*member, const Mapping<U>& keys, Need need,
                   std::string help) &;
  template <class U>
  Mapping& list(std::string key, std::vector<U> T::*member, const Mapping<U>& keys, Need need,
                std::string help) &;
};

}  // namespace ampstair::sheet
