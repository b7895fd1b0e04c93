#include "quantities/quantity.h"

#include <gtest/gtest.h>

#include <concepts>

#include "quantities/celsius.h"

namespace dryout::quantities {
namespace {

template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept Comparable = requires(A a, B b) {
  a < b;
};

// What must not compile, held at compile time.
static_assert(!Addable<Ohm, Farad>);
static_assert(!Addable<Hertz, Second>);
static_assert(!Addable<Ohm, double>);
static_assert(!Addable<Celsius, Celsius>);
static_assert(!Comparable<Ohm, Volt>);
static_assert(!std::convertible_to<double, Ohm>);
static_assert(!std::convertible_to<Hertz, AngularFrequency>);
static_assert(sizeof(Ohm) == sizeof(double));

// What must come out of products.
static_assert(std::same_as<decltype(Ohm() * Farad()), Second>);
static_assert(std::same_as<decltype(Volt() / Ampere()), Ohm>);
static_assert(std::same_as<decltype(Volt() * Ampere()), Watt>);
static_assert(std::same_as<decltype(Watt() * Second()), Joule>);
static_assert(std::same_as<decltype(Henry() / Ohm()), Second>);
static_assert(std::same_as<decltype(Second() * Hertz()), double>);
static_assert(std::same_as<decltype(1.0 / Second()), Hertz>);

TEST(Quantity, OhmTimesFaradIsATimeConstant) {
  EXPECT_DOUBLE_EQ((ohms(2200.0) * microfarads(470.0)).si(), 1.034);
}

TEST(Quantity, AngularFrequencyCarriesTheTwoPi) {
  // Definition, ISO 80000-3: omega = 2 pi f.
  EXPECT_NEAR(angular(hertz(50.0)).radians_per_second(), 314.159265358979, 1e-9);
}

TEST(Quantity, SumsDifferencesAndOrderWorkInOneDimension) {
  EXPECT_EQ(ohms(3.0) + ohms(1.7), ohms(4.7));
  EXPECT_LT(volts(-5.0), volts(0.0));
  EXPECT_EQ(hours(1.0), minutes(60.0));
}

TEST(Celsius, IsAPointWithDifferences) {
  EXPECT_DOUBLE_EQ((Celsius(105.0) - Celsius(65.0)).kelvins(), 40.0);
  EXPECT_DOUBLE_EQ((Celsius(20.0) + CelsiusDelta(3.0)).degrees(), 23.0);
  EXPECT_DOUBLE_EQ(Celsius(0.0).in_kelvin(), 273.15);  // definition, SI Brochure 9th ed., 2.3.1
}

}  // namespace
}  // namespace dryout::quantities
