// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/demo.h"

#include "history/shipped.h"
#include "job/job_json.h"

namespace ww::history {

std::vector<job::Job> demoJobs(const equipment::Library& library) {
  std::vector<job::Job> jobs;
  for (const ShippedFile& file : shippedDemoJobs())
    if (auto job = job::readJob(file.text, library)) jobs.push_back(std::move(*job.value));
  return jobs;
}

}  // namespace ww::history
