// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "checks/findings.hpp"
#include "watch/item.hpp"
#include "watch/state.hpp"

// How findings are put into words: three significant figures at most, except of a temperature whose
// error is known, and a length never finer than a millimetre, a temperature never finer than a
// tenth of a degree.

namespace ampstair::post::checks {

/// "67.6", "0.388", "119": three significant figures, at most `decimals` after the point.
std::string figures(double value, int decimals);
/// A difference with its sign, "+0.4"; what rounds to nothing has none to be seen, "+0.0".
std::string difference_figures(double value, int decimals);

std::string temperature_text(double kelvin);  ///< "68.1 °C"
/// A temperature with as many digits as its bar of error allows, never finer than a tenth of a
/// degree: "118.2 ± 0.1 °C", the bar rounded up and that of the rounding in it; without a bar of
/// the grid's error "118.2 °C", rounded by that of time alone; without any as temperature_text().
std::string reading_text(const Reading& reading);
std::string minute_text(double seconds);  ///< "67.6 min" since the start
std::string span_text(double seconds);    ///< a duration: "12.0 s", "3.00 min", "2.50 h"
std::string spot_text(const Spot& spot);  ///< "3.77 m (drop + 0.510 m)"
/// The letter and shape of a state: "C ○", "N ◐", "X ●", "? ◇". Never colour alone.
std::string_view mark_of(watch::State state);
/// The limit of an item as a reader knows it: "> 60 °C 3 min", "1000 h at 50 °C", "char 0.5 mm".
std::string limit_text(const watch::Item& item);

}  // namespace ampstair::post::checks
