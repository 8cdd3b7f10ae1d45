// SPDX-License-Identifier: MIT
#include "history/sha256.hpp"

#include <fmt/format.h>
#include <openssl/evp.h>

#include <array>
#include <stdexcept>

namespace ampstair::history {

std::string sha256(std::string_view text) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned int length = 0;
  if (EVP_Digest(text.data(), text.size(), digest.data(), &length, EVP_sha256(), nullptr) != 1) {
    throw std::runtime_error(
        "libcrypto offers no SHA-256, so the run sheet cannot be fingerprinted");
  }
  std::string hexadecimal;
  for (unsigned int k = 0; k < length; ++k) {
    hexadecimal += fmt::format("{:02x}", digest[k]);
  }
  return hexadecimal;
}

}  // namespace ampstair::history
