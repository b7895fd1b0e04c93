// Everything of a bench in one file, and back; a case whose own equipment is at fault or missing; a
// bench without a home.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "app/run_program.h"

namespace dryout::app_test {
namespace {

namespace fs = std::filesystem;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

class ShopBundle : public testing::Test {
 protected:
  void SetUp() override {
    const std::string parts = here_.file(
        "parts.csv", "reference,value,volts,block,role\nC1,4700u,50,rectifier,reservoir\n");
    const Outcome described = here_.run({"describe-set", parts, "--like", "stereo-receiver", "--id",
                                         "my-set", "--title", "My set"});
    ASSERT_EQ(described.exit, 0) << described.out << described.err;
    ASSERT_EQ(here_
                  .run({"keep-limit", "--maker", "Invented", "--series", "IV", "--capacitance",
                        "47u", "--volts", "25", "--esr", "0.8"})
                  .exit,
              0);
    ASSERT_EQ(here_.run({"shop", "history", "on"}).exit, 0);
    for (const char* equipment : {"my-set", "stereo-receiver", "my-set"}) {
      ASSERT_EQ(here_.run({"case", "new", "--equipment", equipment, "--set", "Lark"}).exit, 0);
    }
    ASSERT_EQ(here_.run({"case", "note", "1", "walnut"}).exit, 0);
  }
  [[nodiscard]] bool has_window() const {
    const Outcome told = here_.run({"snapshot", "1", "--view", "?", "-o", "page.png"});
    return told.err.find("probe") != std::string::npos;
  }
  [[nodiscard]] fs::path own_set() const {
    return here_.path() / "data/dryout/own/rules/equipment/my-set.json";
  }
  Home here_, there_;
};

TEST_F(ShopBundle, HoldsAllOfABenchAndIsTheSameOnAnother) {
  const std::string bundle = (here_.path() / "bundle.json").string();
  const Outcome exported = here_.run({"shop", "export", "-o", bundle});
  ASSERT_EQ(exported.exit, 0) << exported.err;
  const documents::Value taken = there_.json({"shop", "import", bundle});
  EXPECT_EQ(number_at(taken, {"counts", "added"}), 3.0);
  EXPECT_EQ(number_at(taken, {"unchained"}), 0.0);
  EXPECT_EQ(read_whole(there_.path() / "data/dryout/own/rules/equipment/my-set.json"),
            read_whole(own_set()));
  EXPECT_THAT(there_.run({"list", "limits", "--find", "IV"}).out, HasSubstr("Invented"));
  EXPECT_THAT(there_.run({"shop", "history"}).out, here_.run({"shop", "history"}).out);
  EXPECT_THAT(there_.run({"case", "show", "1"}).out,
              AllOf(HasSubstr("My set"), HasSubstr("walnut")));
  const std::string again = (there_.path() / "again.json").string();
  ASSERT_EQ(there_.run({"shop", "export", "-o", again}).exit, 0);
  EXPECT_EQ(read_whole(again), read_whole(bundle));
  EXPECT_EQ(number_at(there_.json({"shop", "import", bundle}), {"counts", "known"}), 3.0);
  EXPECT_EQ(here_.run({"shop", "export"}).out, read_whole(bundle));
}

TEST_F(ShopBundle, AnOwnFileThatIsHereStaysUnlessItIsToBeReplaced) {
  const std::string bundle = (here_.path() / "bundle.json").string();
  ASSERT_EQ(here_.run({"shop", "export", "-o", bundle}).exit, 0);
  const fs::path limits = there_.path() / "data/dryout/own/rules/limits/bench.json";
  ASSERT_EQ(there_
                .run({"keep-limit", "--maker", "Other", "--series", "V", "--capacitance", "47u",
                      "--volts", "25", "--esr", "0.8"})
                .exit,
            0);
  const std::string before = read_whole(limits);
  const Outcome kept = there_.run({"shop", "import", bundle});
  EXPECT_EQ(kept.exit, 1);
  EXPECT_THAT(kept.out, HasSubstr("yours stays"));
  EXPECT_EQ(read_whole(limits), before);
  EXPECT_EQ(there_.run({"shop", "import", bundle, "--replace"}).exit, 0);
  EXPECT_THAT(read_whole(limits), HasSubstr("Invented"));
}

TEST_F(ShopBundle, ABundleThatLeavesTheOwnFolderOrWasForgedIsRefused) {
  const std::string bundle = (here_.path() / "bundle.json").string();
  ASSERT_EQ(here_.run({"shop", "export", "-o", bundle}).exit, 0);
  const std::string text = read_whole(bundle);
  const auto with = [&](const std::string& what, const std::string& instead) {
    std::string other = text;
    const std::size_t at = other.find(what);
    EXPECT_NE(at, std::string::npos) << what;
    return there_.file("forged.json", other.replace(at, what.size(), instead));
  };
  for (const auto& [what, instead] : std::vector<std::pair<std::string, std::string>>{
           {"rules/limits/bench.json", "rules/../../../escape.json"},
           {"rules/limits/bench.json", "/tmp/escape.json"},
           {"walnut", "chesnut"},
           {"dryout-shop", "dryout-mine"}}) {
    const Outcome refused = there_.run({"shop", "import", with(what, instead)});
    EXPECT_EQ(refused.exit, 2) << what;
    EXPECT_THAT(refused.err, HasSubstr("forged.json"));
    EXPECT_THAT(there_.run({"case", "list"}).out, HasSubstr("No cases yet")) << what;
  }
  EXPECT_FALSE(fs::exists(there_.path() / "data/escape.json"));
}

TEST_F(ShopBundle, EquipmentAtFaultLocksNoCase) {
  std::ofstream(own_set()) << "{\"schema\": 1, \"equipment\": 7}";
  const Outcome shown = here_.run({"case", "show", "1"});
  EXPECT_EQ(shown.exit, 0) << shown.err;
  EXPECT_THAT(shown.out,
              AllOf(HasSubstr("walnut"), HasSubstr("rules of this set are not at hand")));
  EXPECT_THAT(here_.run({"case", "show", "1", "--json"}).out, HasSubstr("not at hand"));
  EXPECT_EQ(here_.run({"suspects", "1"}).exit, 0);
  EXPECT_THAT(here_.run({"case", "log", "1"}).out, HasSubstr("walnut"));
  EXPECT_THAT(here_.run({"case", "export", "1"}).out, HasSubstr("walnut"));
  EXPECT_EQ(here_.run({"case", "note", "1", "still written"}).exit, 0);
  EXPECT_EQ(here_.run({"case", "undo", "1"}).exit, 0);
  const Outcome refused = here_.run({"case", "symptom", "1", "hum-steady", "yes"});
  EXPECT_EQ(refused.exit, 2) << "what needs the rules is refused with the reason";
  EXPECT_THAT(refused.err, HasSubstr("my-set"));
  if (has_window()) {
    for (const char* view : {"probe", "suspects", "cases"}) {
      const Outcome drawn = here_.run({"snapshot", "1", "--view", view, "-o", "page.png"});
      EXPECT_EQ(drawn.exit, 0) << view << drawn.err;
    }
  }
  const Outcome corrected = here_.run({"case", "correct", "1", "--equipment", "stereo-receiver"});
  EXPECT_EQ(corrected.exit, 0) << corrected.err;
  EXPECT_THAT(here_.run({"case", "show", "1"}).out, Not(HasSubstr("not at hand")));
}

TEST_F(ShopBundle, AnExportToAFullDeviceSaysSo) {
  EXPECT_NE(here_.run({"shop", "export", "-o", "/dev/full"}).exit, 0);
  EXPECT_NE(here_.run({"case", "export", "--all", "-o", "/dev/full"}).exit, 0);
  if (!has_window()) {
    GTEST_SKIP() << "built without its window";
  }
  ASSERT_EQ(symlink("/dev/full", (here_.path() / "full.png").c_str()), 0);
  const Outcome drawn = here_.run({"snapshot", "2", "--view", "probe", "-o", "full.png"});
  EXPECT_EQ(drawn.exit, 4) << drawn.err;
  EXPECT_THAT(drawn.err, HasSubstr("No space left"));
}

TEST_F(ShopBundle, NothingThatIsKeptIsWrittenOverWhateverPathSpellsIt) {
  const fs::path data = here_.path() / "data/dryout";
  const fs::path store = data / "cases.db";
  ASSERT_EQ(here_.run({"case", "backup", "kept.db"}).exit, 0);
  fs::create_symlink(store, here_.path() / "link.json");
  fs::create_hard_link(store, here_.path() / "hard.json");
  fs::create_symlink(store.string() + "-wal", here_.path() / "wal.json");
  fs::create_directory_symlink(data, here_.path() / "dir");
  const std::string before = read_whole(store);
  const std::string set = read_whole(own_set());
  for (const std::string& target :
       {store.string(), store.string() + "-wal", store.string() + "-shm",
        store.string() + "-journal", std::string("data/dryout/../dryout/cases.db"),
        std::string("link.json"), std::string("hard.json"), std::string("wal.json"),
        std::string("dir/cases.db"), (data / "shop_history.json").string(), own_set().string(),
        std::string("dir/own/rules/new.json"), std::string("dir/own"), std::string("kept.db")}) {
    for (const std::vector<std::string>& words : {std::vector<std::string>{"shop", "export"},
                                                  {"case", "export", "1"},
                                                  {"case", "export", "--all"},
                                                  {"report", "1"},
                                                  {"next", "1", "--tree", "1"},
                                                  {"case", "rescue", store.string()}}) {
      auto command = words;
      command.insert(command.end(), {"-o", target});
      const Outcome refused = here_.run(command);
      EXPECT_EQ(refused.exit, 2) << words[0] << ' ' << target;
      EXPECT_THAT(refused.err, AllOf(HasSubstr(target), HasSubstr("nothing was written")))
          << words[0];
    }
    EXPECT_EQ(here_.run({"case", "backup", target}).exit, 2) << target;
  }
  EXPECT_EQ(read_whole(store), before);
  EXPECT_EQ(read_whole(own_set()), set);
  EXPECT_EQ(here_.run({"case", "check"}).exit, 0);
  EXPECT_EQ(here_.run({"case", "export", "1", "-o", "free.json"}).exit, 0);
}

TEST_F(ShopBundle, CautionsAreTakenOnlyWhereThatIsAskedForAndSaid) {
  const fs::path cautions = here_.path() / "data/dryout/own/rules/cautions";
  fs::create_directories(cautions);
  std::ofstream(cautions / "mine.json")
      << R"({"schema": 1, "cautions": [{"id": "mains", "title": "All safe here", "because": "x",
        "source": "invented", "wording": "All safe here.", "danger": "mains", "where": ["mains"]}]})";
  ASSERT_EQ(here_.run({"shop", "export", "-o", "bundle.json"}).exit, 0);
  const std::string bundle = (here_.path() / "bundle.json").string();
  const Outcome kept = there_.run({"shop", "import", bundle, "--replace"});
  EXPECT_EQ(kept.exit, 1) << kept.err;
  EXPECT_THAT(kept.out, AllOf(HasSubstr("rules/cautions/mine.json"), HasSubstr("not taken")));
  const fs::path there = there_.path() / "data/dryout/own/rules/cautions/mine.json";
  EXPECT_FALSE(fs::exists(there));
  const Outcome taken = there_.run({"shop", "import", bundle, "--take-cautions"});
  EXPECT_EQ(taken.exit, 0) << taken.err;
  EXPECT_THAT(taken.out,
              HasSubstr("\"All safe here\" takes the place of the shipped \"Mains inside"));
  EXPECT_TRUE(fs::exists(there));
}

TEST_F(ShopBundle, EquipmentThatLeavesOutAHazardIsACautionToo) {
  const fs::path shipped = fs::path(DRYOUT_SOURCE_DIR) / "rules/equipment";
  for (const auto& each : fs::directory_iterator(shipped)) {
    std::string text = read_whole(each.path());
    const std::size_t at = text.find("\"hazards\": [\"mains\", ");
    if (at == std::string::npos) {
      continue;
    }
    text.erase(text.find("\"mains\", ", at), std::string("\"mains\", ").size());
    std::ofstream(own_set().parent_path() / "bold.json") << text;
    ASSERT_EQ(here_.run({"shop", "export", "-o", "bundle.json"}).exit, 0);
    const Outcome kept = there_.run({"shop", "import", (here_.path() / "bundle.json").string()});
    EXPECT_EQ(kept.exit, 1);
    EXPECT_THAT(kept.out, AllOf(HasSubstr("bold.json"), HasSubstr("hazards")));
    return;
  }
  FAIL() << "no equipment with mains and another hazard";
}

TEST_F(ShopBundle, WhereACaseIsRefusedNothingOfTheBundleIsTaken) {
  ASSERT_EQ(here_.run({"shop", "export", "-o", "bundle.json"}).exit, 0);
  std::string text = read_whole(here_.path() / "bundle.json");
  text.replace(text.find("walnut"), 6, "chesnu");
  const Outcome refused = there_.run({"shop", "import", there_.file("forged.json", text)});
  EXPECT_EQ(refused.exit, 2);
  EXPECT_FALSE(fs::exists(there_.path() / "data/dryout/own"));
  EXPECT_FALSE(fs::exists(there_.path() / "data/dryout/shop_history.json"));
  EXPECT_FALSE(fs::exists(there_.path() / "data/dryout/cases.db"));
}

TEST_F(ShopBundle, OwnFilesThatCannotGoAlongAreNamedOnBothWays) {
  const fs::path folder = own_set().parent_path();
  fs::copy_file(own_set(), folder / "of the attic.json");
  fs::remove(own_set());
  ASSERT_EQ(here_.run({"shop", "export", "-o", "bundle.json"}).exit, 0);
  const Outcome printed = here_.run({"shop", "export"});
  EXPECT_EQ(printed.exit, 0);
  EXPECT_EQ(printed.out, read_whole(here_.path() / "bundle.json"));
  EXPECT_EQ(there_.run({"shop", "import", (here_.path() / "bundle.json").string()}).exit, 0);
  EXPECT_TRUE(fs::exists(there_.path() / "data/dryout/own/rules/equipment/of the attic.json"));
  fs::create_symlink("nowhere.json", folder / "dangling.json");
  fs::create_directory(folder / "folder.json");
  std::ofstream(folder / "two\nlines.json") << "{}";
  std::ofstream(folder / "latin.json") << "{\"a\": \"\xe4\"}";
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"shop", "export"}, {"shop", "export", "-o", "two.json"}}) {
    const Outcome told = here_.run(words);
    EXPECT_EQ(told.exit, 1);
    EXPECT_THAT(told.err, AllOf(HasSubstr("dangling.json"), HasSubstr("latin.json"),
                                HasSubstr("lines.json")));
  }
  EXPECT_TRUE(fs::exists(here_.path() / "two.json"));
}

TEST_F(ShopBundle, ARescueSaysThatOwnFilesStayInTheBundle) {
  ASSERT_EQ(here_.run({"shop", "export", "-o", "bundle.json"}).exit, 0);
  const Outcome saved = here_.run({"case", "rescue", "bundle.json", "-o", "saved"});
  EXPECT_EQ(saved.exit, 1);
  EXPECT_THAT(saved.out, AllOf(HasSubstr("3 cases, 4 steps saved"), HasSubstr("2 own files"),
                               Not(HasSubstr("nothing lost"))));
  const Outcome file = here_.run({"case", "rescue", "bundle.json", "-o", "bundle.json"});
  EXPECT_EQ(file.exit, 2);
  EXPECT_THAT(file.err, AllOf(HasSubstr("a file of that name"), Not(HasSubstr("Success"))));
  ASSERT_EQ(
      here_.run({"case", "new", "--equipment", "stereo-receiver", "--set", "two\nlines"}).exit, 0);
  EXPECT_THAT(here_.run({"case", "rescue", "data/dryout/cases.db", "-o", "more"}).out,
              HasSubstr("two\\nlines"));
}

TEST(WithoutAHome, NothingIsKeptWhereTheProgramHappensToStand) {
  const Home home;
  const std::string bare = "cd " + home.path().string() + " && env -u HOME -u XDG_DATA_HOME " +
                           std::string(DRYOUT_BINARY) + ' ';
  const std::string told =
      output_of(bare + "case new --equipment stereo-receiver --set Lark 2>&1; echo $?");
  EXPECT_THAT(told, AllOf(HasSubstr("XDG_DATA_HOME"), HasSubstr("--store"), HasSubstr("2\n")));
  EXPECT_THAT(output_of(bare + "keep-limit --maker I --series V --capacitance 47u --volts 25 --esr "
                               "0.8 2>&1; echo $?"),
              AllOf(HasSubstr("XDG_DATA_HOME"), HasSubstr("2\n")));
  EXPECT_EQ(output_of(bare + "--store here.db case new --equipment stereo-receiver --set Lark "
                             "> told 2>&1; echo $?"),
            "0\n");
  EXPECT_FALSE(fs::exists(home.path() / ".local"));
  EXPECT_FALSE(fs::exists(home.path() / "dryout"));
}

}  // namespace
}  // namespace dryout::app_test
