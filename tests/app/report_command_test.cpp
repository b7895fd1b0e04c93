// Reports from the command line: endings, refusals, what is left on the disk.
#include <gtest/gtest.h>

#include <filesystem>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

namespace fs = std::filesystem;

/// A case on the bench: taken in, a symptom, a reading.
void take_in(const Home& home, const std::string& complaint) {
  ASSERT_EQ(home.run({"case", "new", "--equipment", "stereo-receiver", "--set", "Larkfield 40",
                      "--year", "1978", "--owner", "Ms Ferry", "--complaint", complaint})
                .exit,
            0);
  ASSERT_EQ(home.run({"case", "symptom", "1", "hum-steady", "yes"}).exit, 0);
}

TEST(ReportCommand, WritesPdfAndHtmlForOwnerAndBench) {
  const Home home;
  take_in(home, "hums");
  for (const char* reader : {"owner", "bench"}) {
    const std::string pdf = (home.path() / (std::string(reader) + ".pdf")).string();
    const documents::Value said = home.json({"report", "1", "-o", pdf, "--for", reader});
    EXPECT_EQ(text_at(said, {"written"}), pdf);
    EXPECT_EQ(text_at(said, {"what"}), reader);
    EXPECT_EQ(text_at(said, {"format"}), "pdf");
    EXPECT_GE(number_at(said, {"pages"}), 1.0);
    EXPECT_EQ(number_at(said, {"bytes"}), static_cast<double>(fs::file_size(pdf)));
    EXPECT_EQ(read_whole(pdf).substr(0, 5), "%PDF-");
    const std::string html = (home.path() / (std::string(reader) + ".html")).string();
    ASSERT_EQ(home.run({"report", "1", "-o", html, "--for", reader, "--paper", "letter"}).exit, 0);
    EXPECT_NE(read_whole(html).find("Larkfield 40"), std::string::npos);
  }
}

TEST(ReportCommand, TheFileIsTheUsersOwn) {
  const Home home;
  take_in(home, "hums");
  const fs::path file = home.path() / "r.html";
  ASSERT_EQ(home.run({"report", "1", "-o", file.string()}).exit, 0);
  EXPECT_EQ(fs::status(file).permissions(), fs::perms::owner_read | fs::perms::owner_write);
  EXPECT_FALSE(fs::exists(home.path() / "r.html.part"));
}

TEST(ReportCommand, RefusesAnEndingItDoesNotKnowAndLeavesTheFileAlone) {
  const Home home;
  take_in(home, "hums");
  const std::string file = home.file("notes.txt", "mine");
  const Outcome outcome = home.run({"report", "1", "-o", file});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_NE(outcome.err.find("ends in .pdf or .html"), std::string::npos) << outcome.err;
  EXPECT_EQ(read_whole(file), "mine");
}

TEST(ReportCommand, RefusesWhatItCannotWriteReadOrUnderstand) {
  const Home home;
  take_in(home, "hums");
  const std::string nowhere = (home.path() / "no/such/folder/r.pdf").string();
  EXPECT_EQ(home.run({"report", "1", "-o", nowhere}).exit, 2);
  const std::string file = (home.path() / "r.pdf").string();
  EXPECT_EQ(home.run({"report", "77", "-o", file}).exit, 2);
  EXPECT_EQ(home.run({"report", "1"}).exit, 2);
  EXPECT_EQ(home.run({"report", "1", "-o", file, "--for", "nobody"}).exit, 2);
  EXPECT_EQ(home.run({"report", "1", "-o", file, "--paper", "a5"}).exit, 2);
  EXPECT_EQ(home.run({"report", "1", "-o", file, "--years", "1000"}).exit, 2);
  EXPECT_FALSE(fs::exists(file));
}

TEST(ReportCommand, WhatWasTypedAtTheCounterIsNoMarkup) {
  const Home home;
  take_in(home, "<script>alert('x')</script> & \"hum\"");
  const fs::path file = home.path() / "r.html";
  ASSERT_EQ(home.run({"report", "1", "-o", file.string(), "--shop", "<b>Shop</b>"}).exit, 0);
  const std::string html = read_whole(file);
  EXPECT_EQ(html.find("<script"), std::string::npos);
  EXPECT_EQ(html.find("<b>Shop"), std::string::npos);
  EXPECT_NE(html.find("&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt; &amp; &quot;hum&quot;"),
            std::string::npos);
}

TEST(ReportCommand, AWholeJobIsHandedOver) {
  const Home home;
  take_in(home, "hums");
  const documents::Value suspects = home.json({"suspects", "1"});
  const std::string cause = text_at(suspects, {"suspects", "0", "id"});
  ASSERT_EQ(home.run({"case", "judge", "1", cause, "at-fault"}).exit, 0);
  ASSERT_EQ(home.run({"case", "repair", "1", cause, "replaced", "--fitted", "4700u 63 V"}).exit, 0);
  ASSERT_EQ(home.run({"case", "retest", "1", "hum-steady"}).exit, 0);
  ASSERT_EQ(home.run({"case", "finish", "1", "--cause", cause}).exit, 0);
  const fs::path file = home.path() / "r.html";
  ASSERT_EQ(home.run({"report", "1", "-o", file.string()}).exit, 0);
  const std::string html = read_whole(file);
  for (const char* part : {"The fault was found", "4700u 63 V", "Judged at fault at the bench",
                           "Please do not open it"}) {
    EXPECT_NE(html.find(part), std::string::npos) << part;
  }
}

}  // namespace
}  // namespace dryout::app_test
