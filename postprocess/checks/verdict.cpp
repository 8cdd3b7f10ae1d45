// SPDX-License-Identifier: MIT
#include "checks/verdict.hpp"

#include "checks/judge.hpp"

namespace ampstair::post::checks {

Verdict verdict_on(const Histories& histories, const std::vector<watch::Item>& items) {
  Verdict verdict;
  verdict.findings = judge(histories, items);
  verdict.settling = settling(histories, verdict.findings);
  verdict.device = stored_device(histories);
  if (verdict.device) {
    verdict.opening = envelope(*verdict.device, histories);
  }
  return verdict;
}

}  // namespace ampstair::post::checks
