// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <string>

#include "sheet_rig.hpp"

using namespace rig;

TEST_CASE("a gauge that became a comment is told where it stands") {
  CHECK(faults("layers:\n"
               "  - {material: rubber, thickness: 1 mm}\n"
               "instruments: {camera: {aim: #12, emissivity_set: 0.9}}\n"
               "around: {air: 11}\n") ==
        Told{"3:29 E101 the text after a space and '#' is a comment in YAML, so 'aim' is empty and "
             "this line's '{' is never closed. | write  aim: No. 12   or   aim: '#12'",
             "4:15 E110 'air' has no unit (read 11). | write 11 degC, 51.8 degF or 284 K; bare "
             "numbers are only accepted for ratios and counts"});
  CHECK(codes("title: x\naround: {air: 11 degC, speed: #1 m/s}\n") == Told{"2:31 E101"});
  CHECK(codes("run: [{piece: open, name: leg #2, length: 1 m}]\n") == Told{"1:31 E101"});
}

TEST_CASE("comments that are meant as such are left alone") {
  CHECK(faults("title: x   # the title {is} here\n"
               "# a line with a {brace\n"
               "run:       # in order [along\n"
               "  - {piece: open, length: 1 m}   # first }\n"
               "around: {  # what it stands in\n"
               "  air: 11 degC,  # see {note}\n"
               "  speed: 0 m/s}\n"
               "gauge: '#12'\n") == Told{});
}

TEST_CASE("a missing unit is told with the piece") {
  CHECK(faults("run:\n"
               "  - {piece: open, name: south leg, length: 1.10}\n") ==
        Told{"2:44 E110 'length' of piece 'south leg' has no unit (read 1.10). | write 1.10 m, 110 "
             "cm or 43.3 in; bare numbers are only accepted for ratios and counts"});
}

TEST_CASE("a wrong kind of unit is told with the right one") {
  CHECK(faults("layers:\n  - {material: cotton-braid, thickness: 0.5 A}\n") ==
        Told{"2:41 E111 'thickness' needs a length; 'A' is a current (ampere). | did you mean 0.5 "
             "mm?"});
}

TEST_CASE("a bare C is ambiguous") {
  CHECK(faults("around: {air: 11 C}\n") ==
        Told{"1:15 E112 'C' is ambiguous (coulomb, Celsius temperature or Celsius difference). | "
             "write 11 degC for a temperature, 11 Cdeg for a difference"});
}

TEST_CASE("an unknown key gets the nearest one") {
  CHECK(faults("instruments:\n  camera: {aim: [S1, T1], emisivity_set: 0.95}\n") ==
        Told{"2:27 E121 unknown key 'emisivity_set' in instruments.camera. | did you mean "
             "emissivity_set? Unknown keys are errors, never ignored"});
  CHECK(faults("run: [{piece: open, name: leg, lenght: 1 m, length: 1 m}]\n") ==
        Told{"1:32 E121 unknown key 'lenght' in piece 'leg'. | did you mean length? Unknown keys "
             "are errors, never ignored"});
  CHECK(faults("zebra: 1\n") ==
        Told{"1:1 E121 unknown key 'zebra' at the top of the sheet. | keys here: title, gauge, "
             "members, layers, run, around, staircase, instruments, arrangements. Unknown keys are "
             "errors, never ignored"});
}

TEST_CASE("a ratio above one gets the percentage it may be") {
  CHECK(faults("layers:\n"
               "  - {material: braid, thickness: 0.5 mm, emissivity: {best: 90, low: 0.80, high: "
               "0.95, from: assumed}}\n") ==
        Told{"2:61 E130 emissivity 90 is outside 0.02 to 1.00. | did you mean 0.90 (90 %)?"});
}

TEST_CASE("a band in disorder shows both texts") {
  CHECK(
      faults("layers:\n"
             "  - {material: rubber, thickness: {best: 3/64 in, low: 1.35 mm, high: 0.95 mm}}\n") ==
      Told{"2:56 E131 low (1.35 mm) is above best (3/64 in = 1.191 mm) and above high (0.95 mm). "
           "| swap low and high"});
  CHECK(faults("layers: [{material: a, thickness: {best: 3 mm, low: 1 mm, high: 2 mm}}]\n") ==
        Told{"1:65 E131 high (2 mm) is below best (3 mm). | write high at or above best"});
  CHECK(faults("layers: [{material: a, thickness: {best: 1 mm, low: 1 mm, high: 1 mm}}]\n") ==
        Told{"1:53 W132 low and high are equal (1 mm), so the band says that nothing is unknown. | "
             "widen the band, or leave low and high out"});
  CHECK(codes("layers: [{material: a, thickness: {best: 1 mm, low: 1 mm}}]\n") ==
        Told{"1:53 E122"});
  CHECK(codes("layers: [{material: a, thickness: {low: 1 mm, high: 2 mm}}]\n") ==
        Told{"1:35 E122"});
}

TEST_CASE("a clock time is no duration") {
  CHECK(faults("staircase: [{hold: 14 A, for: 0:22:00}, {hold: 22 A, for: 22 min}]\n") ==
        Told{"1:31 E140 durations with colons are refused (some YAML readers turn 1:22:00 into the "
             "number 4920, others keep text). | write 22 min, or 1 h 20 min"});
}

TEST_CASE("a decimal comma is told inside and outside braces") {
  CHECK(faults("layers:\n  - {material: cotton-braid, thickness: 0,5 mm, emissivity: 0.9}\n") ==
        Told{"2:41 E113 '0,5' uses a decimal comma (and inside { } YAML splits it in two). | write "
             "0.5 mm"});
  CHECK(faults("around:\n  air: 11,5 degC\n") ==
        Told{"2:8 E113 '11,5' uses a decimal comma. | write 11.5 degC"});
}

TEST_CASE("a tab is no indentation") {
  CHECK(faults("layers:\n"
               "    - {material: rubber, thickness: 1 mm}\n"
               "\t- {material: cotton-braid, thickness: 0.5 A}\n") ==
        Told{"3:1 E100 a tab is used for indentation; YAML allows only spaces. | replace the tab "
             "by four spaces",
             "3:40 E111 'thickness' needs a length; 'A' is a current (ampere). | did you mean 0.5 "
             "mm?"});
  CHECK(codes("around:\n\tair: 11 degC\n\tspeed: 1 m/s\n") == Told{"2:1 E100", "3:1 E100"});
}

TEST_CASE("typeset quotes do not quote") {
  CHECK(faults("run:\n  - {piece: open, name: “south, leg”, length: 1}\n")[0] ==
        "2:25 E103 a typeset quotation mark (“) does not quote in YAML. | write \"south, leg\"");
  CHECK(codes("run:\n  - {piece: open, name: “south, leg”, length: 1}\n") ==
        Told{"2:25 E103", "2:47 E110"});
  CHECK(faults("title: the press’s leg\n") == Told{});
}

TEST_CASE("a key that stands twice is an error") {
  CHECK(faults("title: a\ngauge: No. 12\ntitle: b\n") ==
        Told{"3:1 E102 the key 'title' stands twice in the same mapping (first at line 1). | keep "
             "one of the two"});
  CHECK(codes("around: {air: 1 degC, air: 2 degC}\n") == Told{"1:23 E102"});
}

TEST_CASE("anchors, aliases and tags are refused") {
  CHECK(codes("around: &here {air: 11 degC}\n") == Told{"1:9 E104"});
  CHECK(codes("around: {air: *there}\n") == Told{"1:15 E104"});
  CHECK(codes("title: !!int 5\n") == Told{"1:8 E104"});
  CHECK(faults("title: a & b * c!\n") == Told{});
}

TEST_CASE("brackets and quotes never closed are told where they open") {
  CHECK(faults("layers:\n"
               "  - {material: a, thickness: 1 mm\n"
               "  - {material: b, thickness: 2}\n") ==
        Told{"2:5 E107 '{' is never closed. | add '}' where it ends",
             "3:30 E110 'thickness' has no unit (read 2). | write 2 m, 200 cm or 78.7 in; bare "
             "numbers are only accepted for ratios and counts"});
  CHECK(codes("around: {air: 11 degC\ntitle: x\n") == Told{"1:9 E107"});
  CHECK(codes("run: [{piece: open, length: 1 m}\n") == Told{"1:6 E107"});
  CHECK(codes("run: [{piece: open, length: 1 m]]\n") == Told{"1:32 E107"});
  CHECK(codes("title: 'tis a leg\ngauge: No. 12\n") == Told{"1:8 E107"});
  CHECK(codes("title: a\n  gauge: b\n") == Told{"2:8 E107"});
}

TEST_CASE("a missing comma is told where it is missing") {
  CHECK(
      faults("around: {air: 11 degC speed: 1}\n") ==
      Told{"1:23 E107 a comma is missing before 'speed'. | separate the keys inside { } by "
           "commas, or put a text that holds ': ' in quotes",
           "1:30 E110 'speed' has no unit (read 1). | write 1 m/s; bare numbers are only accepted "
           "for ratios and counts"});
  CHECK(codes("title: a: b\n") == Told{"1:9 E107"});
}

TEST_CASE("several documents are refused") {
  CHECK(codes("title: a\n---\ntitle: b\n") == Told{"3:1 E106"});
  CHECK(faults("---\ntitle: a\n") == Told{});
}

TEST_CASE("columns count characters, not bytes") {
  CHECK(codes("run: [{piece: open, name: Süd°, length: 1}]\n") == Told{"1:41 E110"});
  CHECK(codes("\xEF\xBB\xBFtitle: a\nzebra: 1\n") == Told{"2:1 E121"});
  CHECK(codes("title: a\r\naround: {air: 11 C}\r\n") == Told{"2:15 E112"});
}

TEST_CASE("all faults are told at once, in order") {
  CHECK(codes("layers:\n"
              "  - {material: a, thickness: 0,5 mm, emissivity: 90}\n"
              "\t- {material: “b”, thickness: 1}\n"
              "run:\n"
              "  - {piece: tubee, length: 1 m}\n"
              "  - {piece: tube, bore: 9.5 mm, fit: lose}\n"
              "around: {speed: -1 m/s}\n"
              "zebra: 1\n") == Told{"2:30 E113", "2:50 E130", "3:1 E100", "3:15 E103", "3:31 E110",
                                    "5:13 E123", "6:5 E122", "6:38 E123", "7:9 E122", "7:17 E130",
                                    "8:1 E121"});
}
