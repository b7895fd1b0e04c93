// Files under real key strokes and a real pointer: found by typing, dropped on the window, written
// as papers; and the shop's page, which carries all cases.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <fstream>
#include <sstream>

#include "window/drop_source.h"
#include "window/real_bench.h"

namespace dryout::window {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::StartsWith;

class RealFiles : public RealInput {
 protected:
  [[nodiscard]] std::string parts_list() const {
    const std::string path = bench.folder() + "/parts.csv";
    std::ofstream(path) << "reference,value,volts,technology,block,role\n"
                           "C801,10000u,50,aluminium,rectifier,reservoir\n";
    return path;
  }
  /// A set comes in and its parts list is at hand.
  void open_parts_list() {
    ASSERT_TRUE(bench.open());
    bench.key("n");
    ASSERT_TRUE(bench.click("intake/parts"));
    ASSERT_TRUE(bench.tab_to("intake/parts/path"));
  }
  /// What comes of the list stands below it, in sight or further down.
  [[nodiscard]] bool list_was_read() {
    return bench.wait_for("intake/parts/title") || bench.click("intake/parts/title");
  }
  /// Another bench's case in a file of its own.
  [[nodiscard]] std::string case_file() {
    take_in_a_receiver();
    const std::string path = bench.folder() + "/arrived.json";
    std::ofstream(path) << bench.dryout("case export 1");
    return path;
  }
};

std::string bytes_of(const std::string& path) {
  std::ifstream stream(path, std::ios::binary);
  std::ostringstream bytes;
  bytes << stream.rdbuf();
  return bytes.str();
}

TEST_F(RealFiles, RefusesAPartsListThatIsNotThere) {
  open_parts_list();
  bench.type("/nonexistent/parts.csv");
  bench.key("Return");
  bench.picture("parts-refused");
  EXPECT_FALSE(bench.spot("intake/parts/keep"));
  EXPECT_TRUE(bench.running());
}

TEST_F(RealFiles, TakesAPartsListByItsPath) {
  const std::string path = parts_list();
  open_parts_list();
  bench.type(path);
  bench.key("Return");
  EXPECT_TRUE(list_was_read());
  bench.picture("parts-list");
}

TEST_F(RealFiles, FindsAPartsListByTheBeginningOfItsPath) {
  (void)parts_list();
  open_parts_list();
  bench.type(bench.folder() + "/par");
  ASSERT_TRUE(bench.wait_for("intake/parts/entry/parts.csv"));
  bench.picture("parts-found");
  bench.key("Return");  // only one thing begins so
  EXPECT_TRUE(list_was_read());
}

TEST_F(RealFiles, GoesIntoAFolderByMouse) {
  (void)parts_list();
  open_parts_list();
  bench.type(bench.folder().substr(0, bench.folder().rfind('/')) + "/dryout-real-");
  const std::string own = bench.folder().substr(bench.folder().rfind('/') + 1) + '/';
  ASSERT_TRUE(bench.click("intake/parts/entry/" + own));
  ASSERT_TRUE(bench.click("intake/parts/entry/parts.csv"));
  EXPECT_TRUE(list_was_read());
}

TEST_F(RealFiles, TakesAPartsListThatIsDroppedOnTheWindow) {
  const std::string path = parts_list();
  ASSERT_TRUE(bench.open());
  EXPECT_EQ(drop_on_window(bench.display(), path), "");
  EXPECT_TRUE(list_was_read());
  bench.picture("parts-dropped");
}

TEST_F(RealFiles, TakesACaseInThatIsDroppedOnTheWindow) {
  const std::string path = case_file();
  ASSERT_TRUE(bench.open());
  EXPECT_EQ(drop_on_window(bench.display(), path), "");
  EXPECT_TRUE(bench.wait_for("symptoms/search"));  // it is open now
  bench.picture("case-dropped");
  // It was here already: taken in, it is not there twice.
  EXPECT_THAT(bench.dryout("case list"), Not(HasSubstr("\n     2")));
}

TEST_F(RealFiles, WritesTheOwnersReportAndTheBenchRecord) {
  ASSERT_NO_FATAL_FAILURE(open_at("F6"));
  ASSERT_TRUE(bench.click("paper/owner-pdf"));
  const std::string owner = bench.wait_for_paper("owner-1-tarnbeck-614", ".pdf");
  EXPECT_THAT(bytes_of(owner), StartsWith("%PDF-"));
  bench.picture("report-written");
  struct stat about {};
  ASSERT_EQ(stat(owner.c_str(), &about), 0);
  EXPECT_EQ(about.st_mode & 0777U, 0600U) << "others may read what an owner's name stands in";
  ASSERT_TRUE(bench.click("paper/bench-html"));
  EXPECT_THAT(bytes_of(bench.wait_for_paper("bench-1-tarnbeck-614", ".html")),
              HasSubstr("Tarnbeck 614"));
  ASSERT_TRUE(bench.click("paper/case-json"));
  EXPECT_THAT(bytes_of(bench.wait_for_paper("case-1", ".json")), HasSubstr("hum-steady"));
}

TEST_F(RealFiles, WritesTheListToBuyFromForASpreadsheet) {
  ASSERT_NO_FATAL_FAILURE(open_at("F5"));
  ASSERT_TRUE(bench.press_by_tab("paper/parts-csv"));
  EXPECT_THAT(bytes_of(bench.wait_for_paper("parts-1", ".csv")), HasSubstr(","));
  bench.picture("parts-written");
}

TEST_F(RealFiles, SaysWhereAPaperCouldNotBeWritten) {
  take_in_a_receiver();
  ASSERT_TRUE(bench.open("1 --papers /proc/nowhere"));
  bench.key("F6");
  ASSERT_TRUE(bench.click("paper/owner-html"));
  bench.picture("paper-refused");
  EXPECT_TRUE(bench.running());
}

TEST_F(RealFiles, ShowsTheShopAndCopiesItsStore) {
  take_in_a_receiver();
  (void)bench.dryout("case symptom 1 hum-steady yes");
  (void)bench.dryout("case finish 1 --cause group:reservoirs --summary 'pair replaced'");
  ASSERT_TRUE(bench.open());
  bench.key("s");
  ASSERT_TRUE(bench.wait_for("shop/kind/esr") || bench.click("shop/kind/esr"));
  EXPECT_TRUE(bench.spot("picture/shop-causes")) << "the closed case has a cause";
  bench.picture("shop");
  ASSERT_TRUE(bench.click("shop/backup"));
  EXPECT_THAT(bytes_of(bench.wait_for_paper("store-1", ".db")), StartsWith("SQLite format 3"));
  ASSERT_TRUE(bench.click("shop/history"));
  EXPECT_THAT(bench.dryout("shop history"), HasSubstr("enter the figures"));
  bench.picture("shop-keeping");
}

TEST_F(RealFiles, TakesCasesInFromAFileFoundOnTheShopsPage) {
  const std::string path = case_file();
  ASSERT_TRUE(bench.open());
  bench.key("s");
  ASSERT_TRUE(bench.tab_to("shop/arriving/path"));
  bench.type(path.substr(0, path.size() - 7));
  ASSERT_TRUE(bench.click("shop/arriving/entry/arrived.json"));
  EXPECT_TRUE(bench.wait_for("symptoms/search"));
}

}  // namespace
}  // namespace dryout::window
