// SPDX-License-Identifier: GPL-3.0-or-later
#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "checklist/band_model.h"

namespace ww::checklist {

namespace {

constexpr double kBandSigmas = 2;
constexpr double kOpenOhms = 1e6;    // what a dead circuit without a path still shows at least
constexpr double kWidestVolts = 30;  // a gross error can be anywhere on the scale
constexpr double kWidestOhms = 5000;

Eigen::VectorXd slopeOf(const Prediction& prediction) {
  return Eigen::Map<const Eigen::VectorXd>(prediction.slope.data(), Eigen::Index(prediction.slope.size()));
}

Band bandOf(const Prediction& prediction, double mean, double variance) {
  if (prediction.open) return {kOpenOhms, kOpenOhms, kOpenOhms, 0, true};
  const double sigma = std::sqrt(variance);
  return {std::max(0.0, mean - kBandSigmas * sigma), std::max(0.0, mean + kBandSigmas * sigma), mean, sigma,
          false};
}

}  // namespace

Band priorBand(const Prediction& prediction) {
  return bandOf(prediction, prediction.mean,
                slopeOf(prediction).squaredNorm() + prediction.noise * prediction.noise);
}

struct Posterior::State {
  Eigen::VectorXd mean;
  Eigen::MatrixXd covariance;
};

Posterior::Posterior(size_t parameters, const Priors& priors)
    : state_(std::make_unique<State>()), priors_(priors) {
  state_->mean = Eigen::VectorXd::Zero(Eigen::Index(parameters));
  state_->covariance = Eigen::MatrixXd::Identity(Eigen::Index(parameters), Eigen::Index(parameters));
}

Posterior::~Posterior() = default;

void Posterior::learn(const Prediction& prediction, double value) {
  if (prediction.open) return;
  const Eigen::VectorXd slope = slopeOf(prediction);
  const Eigen::VectorXd spread = state_->covariance * slope;
  const double variance = slope.dot(spread) + prediction.noise * prediction.noise;
  const double residual = value - prediction.mean - slope.dot(state_->mean);
  // The share of belief that this reading is an honest one; a gross error must not bend everything else.
  const double honest = (1 - priors_.grossError) * std::exp(-residual * residual / (2 * variance)) /
                        std::sqrt(2 * std::numbers::pi * variance);
  const double gross = priors_.grossError / (prediction.ohms ? kWidestOhms : kWidestVolts);
  const double weight = honest / (honest + gross);
  state_->mean += weight * spread * (residual / variance);
  state_->covariance -= weight * spread * spread.transpose() / variance;
}

Band Posterior::band(const Prediction& prediction) const {
  const Eigen::VectorXd slope = slopeOf(prediction);
  return bandOf(prediction, prediction.mean + slope.dot(state_->mean),
                slope.dot(state_->covariance * slope) + prediction.noise * prediction.noise);
}

}  // namespace ww::checklist
