// A row of brothers is entered as a person does it: what stays the same is typed once.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "window/driver.h"
#include "window/reading_addition.h"

namespace dryout::window {
namespace {

using casework::Command;
using casework::NamePart;
using casework::RecordReading;
using testing::HasSubstr;

TEST(ReadingAddition, NamesCountUp) {
  EXPECT_EQ(next_reference("C301"), "C302");
  EXPECT_EQ(next_reference("C009"), "C010");
  EXPECT_EQ(next_reference("C99"), "C100");
  EXPECT_EQ(next_reference("99"), "100");
  EXPECT_EQ(next_reference("C7a"), "C7a");
  EXPECT_EQ(next_reference(""), "");
}

TEST(ReadingAddition, FindsTheGroupByItsWords) {
  const casework::CaseView view = sample_case();
  ASSERT_NE(group_by_words(view, "reserv"), nullptr);
  EXPECT_EQ(group_by_words(view, "reserv")->id, "reservoirs");
  EXPECT_EQ(group_by_words(view, "reservoirs")->id, "reservoirs");
  EXPECT_EQ(group_by_words(view, "flywheel"), nullptr);
  EXPECT_EQ(group_by_words(view, ""), nullptr);
}

template <class Kind>
Kind command_at(const std::vector<Intention>& wishes, std::size_t place) {
  return std::get<Kind>(std::get<Command>(wishes.at(place)));
}

TEST(ReadingAddition, EntersOneBrotherAfterTheOther) {
  Driver bench(desk_at(sample_case(), Station::readings));
  bench.type("n");
  bench.frames(2);
  bench.type("C301");
  bench.key(Key::tab);
  bench.type("reserv");
  bench.key(Key::tab);
  bench.type("Orbrin RS");
  bench.key(Key::tab);
  bench.type("0,61");
  bench.key(Key::tab);
  bench.type("0.46");
  bench.key(Key::enter);
  const std::vector<Intention> first = bench.wishes();
  ASSERT_EQ(first.size(), 2U);
  const auto part = command_at<NamePart>(first, 0);
  EXPECT_EQ(part.reference, "C301");
  EXPECT_EQ(part.group, "reservoirs");
  EXPECT_EQ(part.make, "Orbrin RS");
  const auto reading = command_at<RecordReading>(first, 1);
  EXPECT_EQ(reading.item, "C301");
  EXPECT_DOUBLE_EQ(reading.value, 0.61);
  EXPECT_DOUBLE_EQ(reading.limit.value(), 0.46);
  EXPECT_EQ(reading.limit_source, "datasheet");

  bench.frames(2);
  bench.type("0.55");
  bench.key(Key::enter);
  const std::vector<Intention> second = bench.wishes();
  ASSERT_EQ(second.size(), 2U);
  EXPECT_EQ(command_at<NamePart>(second, 0).reference, "C302");
  EXPECT_EQ(command_at<NamePart>(second, 0).make, "Orbrin RS");
  EXPECT_DOUBLE_EQ(command_at<RecordReading>(second, 1).value, 0.55);
  EXPECT_DOUBLE_EQ(command_at<RecordReading>(second, 1).limit.value(), 0.46);
}

TEST(ReadingAddition, AsksForTheGroupOfANewPartAndKeepsTheFigure) {
  Driver bench(desk_at(sample_case(), Station::readings));
  bench.type("n");
  bench.frames(2);
  bench.type("C301");
  bench.click("readings/form/figure");
  bench.type("0.61");
  bench.key(Key::enter);
  EXPECT_TRUE(bench.wishes().empty());
  EXPECT_THAT(bench.desk().readings.form.fault, HasSubstr("which group"));
  EXPECT_EQ(bench.desk().readings.form.figure, "0.61");
}

TEST(ReadingAddition, OpensForTheBatchThatIsToBeMeasured) {
  Desk desk = desk_at(sample_case(), Station::mend);
  EXPECT_TRUE(turn_page(desk, MeasureBatch{"group:reservoirs"}));
  EXPECT_EQ(desk.station, Station::readings);
  EXPECT_TRUE(desk.readings.adding);
  ASSERT_NE(group_by_words(*desk.open_case, desk.readings.group), nullptr);
  EXPECT_EQ(group_by_words(*desk.open_case, desk.readings.group)->id, "reservoirs");
}

}  // namespace
}  // namespace dryout::window
