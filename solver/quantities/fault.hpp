// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "quantities/number_text.hpp"
#include "quantities/parse.hpp"
#include "quantities/unit.hpp"

namespace ampstair::quantities {

/// What stood in the sheet and what it was to be, for wording a fault.
struct Asked {
  std::string_view text;
  Dimension dimension;
  std::string_view subject;
};

/// Faults that show in the text before any number is read: decimal comma, clock time, typeset
/// minus.
std::optional<Fault> fault_of_text(const Asked& asked);
Fault not_a_number(const Asked& asked);
Fault too_large(const Asked& asked);
/// The value in the units a sheet's author may have meant.
Fault unit_missing(const Asked& asked, const NumberText& number);
/// An unknown unit, one of another kind, or a slip of a prefix. `unit` is the text after the
/// number.
Fault unit_refused(const Asked& asked, const NumberText& number, std::string_view unit,
                   const UnitReading& reading);
/// A unit that reads well but is hardly meant: plain C or F, Mohm.
std::optional<Fault> fault_of_unit(const Asked& asked, const NumberText& number,
                                   std::string_view unit);

}  // namespace ampstair::quantities
