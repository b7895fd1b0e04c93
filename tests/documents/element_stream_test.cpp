#include "documents/element_stream.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "temporary_folder.h"

namespace dryout::documents {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

class ElementStreamTest : public testing::Test {
 protected:
  /// "key:index@line text", or the problem.
  std::vector<std::string> elements(const std::string& text, std::size_t bytes_max = 1'000) {
    const std::string path = (folder_.path() / "many.json").string();
    std::ofstream(path, std::ios::binary) << text;
    std::vector<std::string> seen;
    const auto heading =
        stream_elements(path, {"cases", "own"}, bytes_max, [&](const StreamedElement& each) {
          seen.push_back(std::string(each.key) + ':' + std::to_string(each.index) + '@' +
                         std::to_string(each.line) + ' ' + std::string(each.text));
          return quantities::Result<quantities::Done>(quantities::Done{});
        });
    seen.push_back(heading ? to_line(heading->root)
                           : quantities::describe(heading.problems().front()));
    return seen;
  }
  tests::TemporaryFolder folder_;
};

TEST_F(ElementStreamTest, GivesEachElementWithItsLineAndTheOthersAsADocument) {
  EXPECT_THAT(elements("{\"a\": [1, {\"b\": \"]}\"}],\n \"cases\": [ {\"x\": \"\\\"]\\\\\"},\n 7,[]"
                       "],\"own\":[],\n\"schema\":1}\n"),
              ElementsAre("cases:0@2 {\"x\": \"\\\"]\\\\\"}", "cases:1@3 7", "cases:2@3 []",
                          R"({"a":[1,{"b":"]}"}],"schema":1})"));
}

TEST_F(ElementStreamTest, AnElementMayBeLongerThanWhatIsReadAtOnce) {
  const std::string text(200'000, 'x');
  const auto seen = elements("{\"cases\":[\"" + text + "\",\"y\"]}", 300'000);
  ASSERT_EQ(seen.size(), 3U);
  EXPECT_EQ(seen[0].size(), text.size() + std::string("cases:0@1 \"\"").size());
  EXPECT_EQ(seen[1], "cases:1@1 \"y\"");
}

TEST_F(ElementStreamTest, RefusesWhatIsCutShortOrMadeToBeLarge) {
  for (const char* text :
       {"", "[]", "{", "{\"cases\"", "{\"cases\":[", "{\"cases\":[1", "{\"cases\":[1,",
        "{\"cases\":[1}", "{\"cases\":[]", "{\"cases\":[] 1}", "{\"cases\":[]}x", "{cases:[]}",
        "{\"cases\":[1 2]}", "{\"cases\":[],\"cases\":[]}", "{\"a\":1,}", "{\"a\":\"x"}) {
    const std::string told = elements(text).back();
    EXPECT_THAT(told, HasSubstr("many.json")) << text;
  }
  EXPECT_THAT(elements("{\"cases\":[\"" + std::string(2'000, 'x') + "\"]}").back(),
              HasSubstr("too large"));
  EXPECT_THAT(elements("{\"a\":\"" + std::string(2'000'000, 'x') + "\"}").back(),
              HasSubstr("too large"));
  const auto none = stream_elements("/dev/zero", {"cases"}, 10, [](const auto&) {
    return quantities::Result<quantities::Done>(quantities::Done{});
  });
  EXPECT_FALSE(none.ok()) << "a device never ends";
}

}  // namespace
}  // namespace dryout::documents
