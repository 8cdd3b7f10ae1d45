// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <functional>
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "diagnostics/problem.hpp"
#include "quantities/dimension.hpp"
#include "sheet/node.hpp"
#include "sheet/value.hpp"

// What Mapping<T> (mapping.hpp) boils down to once T is forgotten. Reading, the reference, the
// schema and the completed sheet work on this, so that they are written once and not per T. An
// `object` is always the T (or nested U) the declaration was made for.

namespace ampstair::sheet {

using quantities::Dimension;

/// Whether a key must stand in the sheet and what holds when it does not.
struct Need {
  enum class Kind { required, optional, by_default };
  Kind kind = Kind::optional;
  std::string default_text;    ///< parsed like a user's own text
  std::string default_source;  ///< why this default; shown by `check --full` and in the record
};
inline Need required() {
  return {Need::Kind::required, {}, {}};
}
inline Need optional() {
  return {Need::Kind::optional, {}, {}};
}
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

struct Declaration;
using DeclarationPtr = std::shared_ptr<const Declaration>;

struct NumberForm {
  std::function<Number&(void*)> member;
  Dimension dimension;
  Bounds bounds;
};
/// A free text, or with `options` one word out of them.
struct TextForm {
  std::function<Text&(void*)> member;
  std::vector<Option> options;
};
struct TruthForm {
  std::function<bool&(void*)> member;
  bool default_value;
};
struct TableForm {
  std::function<Table&(void*)> member;
  Dimension dimension;
  Bounds bounds;
};
struct TextsForm {
  std::function<std::vector<Text>&(void*)> member;
};
/// Entries kept as written, to be read once it is known what they change.
struct NodesForm {
  std::function<std::vector<Node>&(void*)> member;
  std::string item;  ///< what one entry is, for the reference
};
struct MappingForm {
  DeclarationPtr keys;
  std::function<void*(void*)> get;   ///< nullptr where absent
  std::function<void*(void*)> make;  ///< a fresh one
};
struct TextOrMappingForm {
  std::function<Text&(void*)> text;
  MappingForm mapping;
  std::function<void(void*)> drop_mapping;
};
struct ListForm {
  DeclarationPtr keys;
  std::function<void(void*)> clear;
  std::function<void*(void*)> append;
  std::function<std::size_t(void*)> size;
  std::function<void*(void*, std::size_t)> at;
};

/// Mappings told apart by the word under one key.
struct Choices {
  struct Choice {
    std::string word;
    DeclarationPtr keys;
  };
  std::string discriminator;  ///< e.g. "piece"; also the noun of messages
  std::string help;
  std::vector<Choice> choices;
};
using ChoicesPtr = std::shared_ptr<const Choices>;

struct AlternativesForm {
  ChoicesPtr choices;
  std::function<void(void*)> clear;
  std::function<void*(void*, std::size_t which)> append;
  std::function<std::size_t(void*)> size;
  /// which choice the i-th item is, and the item
  std::function<std::pair<std::size_t, void*>(void*, std::size_t)> at;
};

using Form = std::variant<NumberForm, TextForm, TruthForm, TableForm, TextsForm, NodesForm,
                          MappingForm, TextOrMappingForm, ListForm, AlternativesForm>;

struct Key {
  std::string name;
  std::string help;
  Need need;
  Form form;
  std::string example;  ///< shown where a required key is missing; empty: made from the form
};

struct Declaration {
  std::string name;
  std::string help;
  std::vector<Key> keys;
  std::function<Place&(void*)> place;  ///< where the mapping stands; may be empty
  std::function<Text&(void*)> word;    ///< the discriminator's word; may be empty
  std::string alone;  ///< key that a bare text in place of the mapping is for; may be empty
};

/// How a mapping is to be read.
struct Reading {
  diagnostics::ProblemList& problems;
  std::string path;   ///< "instruments.camera" in messages; empty: the top of the sheet
  bool over = false;  ///< assign only the keys present and require nothing
  std::vector<std::string> besides;  ///< keys that belong to the caller and are passed over
  std::string noun;  ///< of messages, "piece" of "'length' of piece 'K1'"; empty: the declaration's
  std::string called;  ///< name in messages where the mapping itself gives none
};

void read_keys(const Declaration& keys, const Node& node, void* object, const Reading& reading);
/// Which choice a node's discriminator names; a Problem where none or an unknown one is given.
std::optional<std::size_t> read_discriminator(const Choices& choices, const Node& node,
                                              const Reading& reading);
void write_reference(std::ostream& out, const Declaration& keys);
std::string write_schema(const Declaration& keys);
void write_completed(std::ostream& out, const Declaration& keys, void* object);

}  // namespace ampstair::sheet
