// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "report/source.hpp"

// The tables of a page in their fixed order, each with a line in plain language under it.

namespace ampstair::post::report {

std::string run_ledger(const Source& source);       ///< T1
std::string steps(const Source& source);            ///< T2
std::string settling(const Source& source);         ///< T2, how far each step came
std::string first_crossings(const Source& source);  ///< T3
std::string device(const Source& source);           ///< T5
/// T6: in what the inputs of several records differ, then their steps and crossings side by side;
/// empty for one record.
std::string records_beside(const std::vector<Source>& sources);
std::string instruments(const Source& source);         ///< T7
std::string values_and_sources(const Source& source);  ///< T9
std::string validity(const Source& source);            ///< T10
std::string energy_ledger(const Source& source);       ///< T12

}  // namespace ampstair::post::report
