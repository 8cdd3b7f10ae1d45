// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "checks/device.hpp"
#include "checks/findings.hpp"
#include "checks/step_settling.hpp"
#include "watch/settling_rule.hpp"

// What is said of a step's rest and of a device, in the same words wherever it is said.

namespace ampstair::post::checks {

/// "settled", "flat but rising", ...
std::string rest_word(const StepSettling& step);
/// What goes with the word: "less than 0.1 K still to come", "no end in sight".
std::string rest_remark(const StepSettling& step);

/// The document a rule is from, "IEC 60598-1".
std::string document_of(watch::SettlingRule rule);
/// What a rule asks for, "less than 1 K in 1 h".
std::string meaning_of(watch::SettlingRule rule);

/// "plug-fuse, 20.0 A, limits from: ...".
std::string device_text(const Device& device);
/// What the earliest and the latest opening mean for this run.
std::string earliest_text(const Device& device, const OpeningEnvelope& opening);
std::string latest_text(const OpeningEnvelope& opening);
/// How a crossing stands to what a device has to do; never that it opened.
std::string device_sentence(const OpeningEnvelope& opening, const Crossing& crossing);
/// How well a crossing's moment is known when it is set against a device: its bar of error, at
/// least half a minute.
double slack_of(const Crossing& crossing);

}  // namespace ampstair::post::checks
