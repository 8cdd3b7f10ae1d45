// SPDX-License-Identifier: MIT
#include "watch/state.hpp"

namespace ampstair::watch {

std::string_view name_of(State state) {
  switch (state) {
    case State::clear:
      return "clear";
    case State::near:
      return "near";
    case State::crossed:
      return "crossed";
    case State::cannot_say:
      break;
  }
  return "cannot say";
}

}  // namespace ampstair::watch
