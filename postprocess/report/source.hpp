// SPDX-License-Identifier: MIT
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "checks/device.hpp"
#include "checks/findings.hpp"
#include "checks/heat_budget.hpp"
#include "checks/histories.hpp"
#include "checks/readings.hpp"
#include "checks/step_settling.hpp"

namespace ampstair::post::report {

/// One record a page tells of.
struct Source {
  std::string file;    ///< name as given
  std::string sha256;  ///< of the file, hexadecimal
  std::unique_ptr<checks::Histories> histories;
  checks::Findings findings;
  std::vector<checks::StepSettling> settling;
  std::vector<checks::InstrumentReading> readings;
  std::vector<checks::HeatBudget> budgets;
  std::optional<checks::Device> device;
  checks::OpeningEnvelope opening;  ///< of the device, where there is one
};

/// For whom a page is made.
enum class Reader { all, court, class_room, bench };

/// The whole page: one HTML file that asks for nothing from anywhere. The same records give the
/// same bytes.
/// @param sources the first is the one told of, the others are set beside it; at least one
std::string page(const std::vector<Source>& sources, Reader reader);

}  // namespace ampstair::post::report
