#include "report/read_back.h"

#include <gtest/gtest.h>

#include <array>
#include <cctype>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <memory>

#include "temporary_folder.h"

namespace dryout::report_test {

std::string run_over(const std::string& bytes, const std::string& ending,
                     const std::string& command) {
  const tests::TemporaryFolder folder;
  const std::string path = (folder.path() / ("page" + ending)).string();
  std::ofstream(path, std::ios::binary) << bytes;
  std::string line = command;
  line.replace(line.find("FILE"), 4, path);
  std::string output;
  FILE* pipe = popen(line.c_str(), "r");
  EXPECT_NE(pipe, nullptr) << line;
  if (pipe == nullptr) {
    return output;
  }
  std::array<char, 4096> buffer{};
  for (std::size_t got = 0; (got = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) {
    output.append(buffer.data(), got);
  }
  EXPECT_EQ(pclose(pipe), 0) << line << '\n' << output;
  return output;
}

std::string text_of_pdf(const std::string& bytes) {
  return run_over(bytes, ".pdf", "pdftotext -layout FILE -");
}

std::string pdf_fact(const std::string& bytes, const std::string& name) {
  const std::string facts = '\n' + run_over(bytes, ".pdf", "TZ=UTC pdfinfo FILE");
  const std::size_t at = facts.find('\n' + name + ':');
  EXPECT_NE(at, std::string::npos) << name << " in" << facts;
  if (at == std::string::npos) {
    return "";
  }
  const std::size_t begin = facts.find_first_not_of(' ', at + name.size() + 2);
  return facts.substr(begin, facts.find('\n', begin) - begin);
}

std::string text_of_html(const std::string& bytes) {
  return run_over(bytes, ".html",
                  "PYTHONIOENCODING=utf-8 python3 -c \"import sys, xml.etree.ElementTree as t; "
                  "r = t.parse(sys.argv[1]).getroot(); "
                  "[setattr(e, 'text', '') for e in r.iter() if e.tag.endswith('style')]; "
                  "print(' '.join(' '.join(r.itertext()).split()))\" FILE");
}

std::string without_spaces(const std::string& text) {
  std::string dense;
  for (const char character : text) {
    if (std::isspace(static_cast<unsigned char>(character)) == 0) {
      dense += character;
    }
  }
  return dense;
}

}  // namespace dryout::report_test
