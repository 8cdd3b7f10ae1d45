// SPDX-License-Identifier: MIT
#include "machine.hpp"

#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <ctime>
#include <fstream>
#include <stdexcept>
#include <string>

namespace ampstair::bench {

double cpu_seconds() {
  timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

double cpu_seconds_of(const std::vector<std::string>& command) {
  std::vector<std::string> words = command;
  std::vector<char*> pointers;
  for (std::string& word : words) {
    pointers.push_back(word.data());
  }
  pointers.push_back(nullptr);
  pid_t process = 0;
  int status = 0;
  rusage used{};
  if (posix_spawn(&process, pointers.front(), nullptr, nullptr, pointers.data(), environ) != 0 ||
      wait4(process, &status, 0, &used) != process || status != 0) {
    throw std::runtime_error("'" + command.front() + "' could not be run to a good end");
  }
  const auto seconds = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
  };
  return seconds(used.ru_utime) + seconds(used.ru_stime);
}

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

std::string processor() {
  std::ifstream info("/proc/cpuinfo");
  std::string name = "unknown processor";
  std::string vectors = "vectors of 128 bit";
  for (std::string line; std::getline(info, line);) {
    if (line.starts_with("model name")) {
      name = line.substr(line.find(':') + 2);
    } else if (line.starts_with("flags")) {
      if (line.find(" avx2 ") != std::string::npos) {
        vectors = "vectors of 256 bit";
      }
      if (line.find(" avx512f ") != std::string::npos) {
        vectors = "vectors of 512 bit";
      }
    }
  }
  return name + ", " + vectors;
}

double triad_bandwidth(std::size_t working_set) {
  const std::size_t size = std::max<std::size_t>(working_set / (3 * sizeof(double)), 1024);
  std::vector<double> a(size, 0.0), b(size, 1.0), c(size, 2.0);
  const std::size_t passes = std::max<std::size_t>(1, 20'000'000 / size);
  double best = 0.0;
  double factor = 1.0;
  for (int round = 0; round < 5; ++round) {
    const double begin = cpu_seconds();
    for (std::size_t pass = 0; pass < passes; ++pass) {
      for (std::size_t i = 0; i < size; ++i) {
        a[i] = b[i] + factor * c[i];
      }
      factor = 1e-9 * a[pass % size];  // the next pass needs this one
    }
    const double bytes = static_cast<double>(3 * sizeof(double) * size * passes);
    best = std::max(best, bytes / (cpu_seconds() - begin));
  }
  return best;
}

}  // namespace ampstair::bench
