// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <string>

#include "history/provenance.hpp"
#include "history/sha256.hpp"

using namespace ampstair::history;

TEST_CASE("SHA-256 agrees with the examples published with FIPS 180", "[history]") {
  // FIPS 180-2 appendix B.1 and B.2 (from memory, and checked with sha256sum of GNU coreutils).
  CHECK(sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

TEST_CASE("A build knows itself", "[history]") {
  const BuildFacts facts = build_facts();
  CHECK(facts.program.starts_with("ampstair "));
  CHECK_FALSE(facts.commit.empty());
  CHECK_FALSE(facts.compiler.empty());
  CHECK(facts.hdf5.starts_with("1."));
}

TEST_CASE("Now is written as ISO 8601 in UTC", "[history]") {
  CHECK_THAT(utc_now(), Catch::Matches(R"(\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}Z)"));
}
