// SPDX-License-Identifier: MIT
#pragma once

#include <concepts>
#include <memory>
#include <optional>
#include <ostream>
#include <string>
#include <tuple>
#include <utility>
#include <variant>
#include <vector>

#include "sheet/declaration.hpp"
#include "sheet/document.hpp"
#include "sheet/value.hpp"

namespace ampstair::sheet {

/// Holds either the name of something declared elsewhere or an inline mapping.
template <class U>
struct TextOr {
  Text text;  ///< missing where `mapping` stands
  std::optional<U> mapping;

  [[nodiscard]] bool present() const { return text.present() || mapping.has_value(); }
};

template <class T>
class Mapping;

/// Mappings told apart by the word under one key: `{piece: tube, ...}`, `{piece: open, ...}`.
template <class... Ts>
class Alternatives {
 public:
  Alternatives(std::string discriminator, std::string help)
      : choices_(std::make_shared<Choices>()) {
    choices_->discriminator = std::move(discriminator);
    choices_->help = std::move(help);
  }

  /// What `word` stands for. Each word has its own type among Ts, in any order.
  template <class U>
  Alternatives& add(std::string word, const Mapping<U>& keys);

  [[nodiscard]] ChoicesPtr choices() const { return choices_; }

  using Item = std::variant<Ts...>;
  /// Index of the word in choices -> an Item of the type it stands for.
  [[nodiscard]] Item make(std::size_t which) const { return makers_.at(which)(); }
  /// Index in choices of the word an Item was made by.
  [[nodiscard]] std::size_t which(const Item& item) const {
    for (std::size_t i = 0; i < indices_.size(); ++i) {
      if (indices_[i] == item.index()) {
        return i;
      }
    }
    return 0;
  }

 private:
  std::shared_ptr<Choices> choices_;
  std::vector<std::function<Item()>> makers_;
  std::vector<std::size_t> indices_;
};

/// The declared keys of one kind of mapping, bound to the members of T. Each key is declared once:
/// reading, messages, nearest-name hints, `ampstair keys` and the JSON Schema all follow from it.
///
///   static const auto keys = Mapping<SleeveSheet>("sleeve", "Woven sleeving over the wire")
///       .text("name", &SleeveSheet::name, required(), "how other entries refer to this piece")
///       .number("length", &SleeveSheet::length, Dimension::length, {0.0, 1000.0, true},
///               required(), "along the wire")
///       .choice("fit", &SleeveSheet::fit, {{"tight", "..."}, {"loose", "..."}},
///               by_default("tight", "..."), "how it sits");
///
/// Members may belong to a base of T. Copies are independent of each other.
template <class T>
class Mapping {
 public:
  Mapping(std::string name, std::string help) : declaration_(std::make_shared<Declaration>()) {
    declaration_->name = std::move(name);
    declaration_->help = std::move(help);
  }
  Mapping(const Mapping& other)
      : declaration_(std::make_shared<Declaration>(*other.declaration_)) {}
  Mapping& operator=(const Mapping& other) {
    declaration_ = std::make_shared<Declaration>(*other.declaration_);
    return *this;
  }
  ~Mapping() = default;

  Mapping& number(std::string key, Number T::*member, Dimension dimension, Bounds bounds, Need need,
                  std::string help) {
    return add(std::move(key), std::move(need), std::move(help),
               NumberForm{reference(member), dimension, bounds});
  }
  Mapping& text(std::string key, Text T::*member, Need need, std::string help) {
    return add(std::move(key), std::move(need), std::move(help), TextForm{reference(member), {}});
  }
  /// One word out of a list; anything else is an error with the nearest word.
  Mapping& choice(std::string key, Text T::*member, std::vector<Option> options, Need need,
                  std::string help) {
    return add(std::move(key), std::move(need), std::move(help),
               TextForm{reference(member), std::move(options)});
  }
  /// true or false, nothing else.
  Mapping& truth(std::string key, bool T::*member, bool default_value, std::string help) {
    return add(std::move(key), optional(), std::move(help),
               TruthForm{reference(member), default_value});
  }
  /// A number, or a list of {at: temperature, value: number}.
  Mapping& table(std::string key, Table T::*member, Dimension dimension, Bounds bounds, Need need,
                 std::string help) {
    return add(std::move(key), std::move(need), std::move(help),
               TableForm{reference(member), dimension, bounds});
  }
  /// A list of plain texts: `aim: [S1, T1]`.
  Mapping& texts(std::string key, std::vector<Text> T::*member, Need need, std::string help) {
    return add(std::move(key), std::move(need), std::move(help), TextsForm{reference(member)});
  }
  /// A list of mappings kept as written, for read_over() once it is known what they change.
  Mapping& entries(std::string key, std::vector<Node> T::*member, std::string item, Need need,
                   std::string help) {
    return add(std::move(key), std::move(need), std::move(help),
               NodesForm{reference(member), std::move(item)});
  }

  template <class U, class Owner>
  Mapping& mapping(std::string key, std::optional<U> Owner::*member, const Mapping<U>& keys,
                   Need need, std::string help) {
    return add(std::move(key), std::move(need), std::move(help), nested(member, keys));
  }
  /// The name of something declared elsewhere, or a mapping that declares it on the spot.
  template <class U, class Owner>
  Mapping& text_or_mapping(std::string key, TextOr<U> Owner::*member, const Mapping<U>& keys,
                           Need need, std::string help) {
    TextOrMappingForm form;
    form.text = [member](void* object) -> Text& { return (self(object).*member).text; };
    form.mapping.keys = keys.declaration();
    form.mapping.get = [member](void* object) -> void* {
      auto& held = (self(object).*member).mapping;
      return held ? &*held : nullptr;
    };
    form.mapping.make = [member](void* object) -> void* {
      return &(self(object).*member).mapping.emplace();
    };
    form.drop_mapping = [member](void* object) { (self(object).*member).mapping.reset(); };
    return add(std::move(key), std::move(need), std::move(help), std::move(form));
  }
  template <class U, class Owner>
  Mapping& list(std::string key, std::vector<U> Owner::*member, const Mapping<U>& keys, Need need,
                std::string help) {
    ListForm form;
    form.keys = keys.declaration();
    form.clear = [member](void* object) { (self(object).*member).clear(); };
    form.append = [member](void* object) -> void* {
      return &(self(object).*member).emplace_back();
    };
    form.size = [member](void* object) { return (self(object).*member).size(); };
    form.at = [member](void* object, std::size_t i) -> void* { return &(self(object).*member)[i]; };
    return add(std::move(key), std::move(need), std::move(help), std::move(form));
  }
  /// A list whose items are told apart by the word under one key of each. Left empty where one of
  /// them could not be told apart, since its order would mean something else without it.
  template <class Owner, class... Us>
  Mapping& alternatives(std::string key, std::vector<std::variant<Us...>> Owner::*member,
                        const Alternatives<Us...>& of, Need need, std::string help);

  /// Where the mapping itself stands goes into this member.
  Mapping& place(Place T::*member) {
    declaration_->place = reference(member);
    return *this;
  }
  /// The discriminator's word and its place go into this member (see Alternatives).
  Mapping& word(Text T::*member) {
    declaration_->word = reference(member);
    return *this;
  }
  /// Where nothing but this key is needed, a bare text may stand for the mapping: `air: 11 degC`
  /// for `air: {temperature: 11 degC}`. In place of a list of such mappings one may stand without
  /// its brackets.
  Mapping& alone(std::string key) {
    declaration_->alone = std::move(key);
    return *this;
  }
  /// Example text of the key declared last, shown where it is required and missing.
  Mapping& example(std::string text) {
    declaration_->keys.back().example = std::move(text);
    return *this;
  }

  /// The declaration as it is now; keys added later do not show in it.
  [[nodiscard]] DeclarationPtr declaration() const {
    return std::make_shared<const Declaration>(*declaration_);
  }

 private:
  static T& self(void* object) { return *static_cast<T*>(object); }

  template <class M, class Owner>
  static std::function<M&(void*)> reference(M Owner::*member) {
    return [member](void* object) -> M& { return self(object).*member; };
  }
  template <class U, class Owner>
  static MappingForm nested(std::optional<U> Owner::*member, const Mapping<U>& keys) {
    MappingForm form;
    form.keys = keys.declaration();
    form.get = [member](void* object) -> void* {
      auto& held = self(object).*member;
      return held ? &*held : nullptr;
    };
    form.make = [member](void* object) -> void* { return &(self(object).*member).emplace(); };
    return form;
  }
  Mapping& add(std::string key, Need need, std::string help, Form form) {
    declaration_->keys.push_back(
        {std::move(key), std::move(help), std::move(need), std::move(form), {}});
    return *this;
  }

  std::shared_ptr<Declaration> declaration_;
};

template <class... Ts>
template <class U>
Alternatives<Ts...>& Alternatives<Ts...>::add(std::string word, const Mapping<U>& keys) {
  auto extended = std::make_shared<Choices>(*choices_);  // what others hold stays as it is
  extended->choices.push_back({std::move(word), keys.declaration()});
  choices_ = std::move(extended);
  makers_.push_back([] { return Item(std::in_place_type<U>); });
  indices_.push_back(Item(std::in_place_type<U>).index());
  return *this;
}

template <class T>
template <class Owner, class... Us>
Mapping<T>& Mapping<T>::alternatives(std::string key,
                                     std::vector<std::variant<Us...>> Owner::*member,
                                     const Alternatives<Us...>& of, Need need, std::string help) {
  const auto address = [](auto& item) {
    return std::visit([](auto& held) -> void* { return &held; }, item);
  };
  AlternativesForm form;
  form.choices = of.choices();
  form.clear = [member](void* object) { (self(object).*member).clear(); };
  form.append = [member, of, address](void* object, std::size_t which) -> void* {
    return address((self(object).*member).emplace_back(of.make(which)));
  };
  form.size = [member](void* object) { return (self(object).*member).size(); };
  form.at = [member, of, address](void* object, std::size_t i) -> std::pair<std::size_t, void*> {
    auto& item = (self(object).*member)[i];
    return {of.which(item), address(item)};
  };
  return add(std::move(key), std::move(need), std::move(help), std::move(form));
}

/// Reads a whole document. Faults go to `problems`; members whose text is at fault stay missing.
template <class T>
T read(const Document& document, const Mapping<T>& keys, diagnostics::ProblemList& problems) {
  T object{};
  if (document.root) {
    read_keys(*keys.declaration(), *document.root, &object, {problems, {}, false, {}, {}, {}});
  }
  return object;
}

/// Reads a node kept from elsewhere; `path` names it in messages.
template <class T>
T read(const Node& node, const Mapping<T>& keys, diagnostics::ProblemList& problems,
       std::string path) {
  T object{};
  read_keys(*keys.declaration(), node, &object, {problems, std::move(path), false, {}, {}, {}});
  return object;
}

/// Who a change is for: in messages, "'length' of <noun> '<called>'".
struct Change {
  std::string path;                  ///< "arrangements[1].change[1]"
  std::string noun;                  ///< "piece"
  std::string called;                ///< "K1"
  std::vector<std::string> besides;  ///< keys of the entry that are not the object's: "piece"
};

/// Reads a node over an object: only the keys present are assigned and nothing is required.
template <class T>
void read_over(const Node& node, const Mapping<T>& keys, T& object,
               diagnostics::ProblemList& problems, const Change& change) {
  read_keys(*keys.declaration(), node, &object,
            {problems, change.path, true, change.besides, change.noun, change.called});
}
template <class... Ts>
void read_over(const Node& node, const Alternatives<Ts...>& of, std::variant<Ts...>& item,
               diagnostics::ProblemList& problems, const Change& change) {
  const auto choices = of.choices();
  void* object = std::visit([](auto& held) -> void* { return &held; }, item);
  read_keys(*choices->choices.at(of.which(item)).keys, node, object,
            {problems, change.path, true, change.besides, change.noun, change.called});
}

/// Every key with its meaning, unit, bounds and default, as plain text.
template <class T>
void print_reference(std::ostream& out, const Mapping<T>& keys) {
  write_reference(out, *keys.declaration());
}

/// JSON Schema (draft 2020-12) of a sheet, as JSON text.
template <class T>
std::string json_schema(const Mapping<T>& keys) {
  return write_schema(*keys.declaration());
}

/// The sheet with every default written out and marked `# default (source)`; can be read again.
template <class T>
void print_completed(std::ostream& out, const Mapping<T>& keys, const T& object) {
  T copy = object;  // declarations hand out references to change; the copy keeps the promise
  write_completed(out, *keys.declaration(), &copy);
}

}  // namespace ampstair::sheet
