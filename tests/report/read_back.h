// Reads back what was rendered with programs that are not ours: poppler for PDF, expat (through
// Python) for HTML that claims to be well-formed XML.
#pragma once

#include <string>
#include <vector>

namespace dryout::report_test {

/// Runs a command over a file with these bytes, whose path takes the place of "FILE"; its standard
/// output. A test failure where it does not end with 0.
[[nodiscard]] std::string run_over(const std::string& bytes, const std::string& ending,
                                   const std::string& command);

/// pdftotext -layout.
[[nodiscard]] std::string text_of_pdf(const std::string& bytes);
/// A line of pdfinfo, without its name: "Pages".
[[nodiscard]] std::string pdf_fact(const std::string& bytes, const std::string& name);
/// All character data of a page, parsed as XML, with its spaces run together.
[[nodiscard]] std::string text_of_html(const std::string& bytes);

/// Without any white space, for comparing text that was broken into lines.
[[nodiscard]] std::string without_spaces(const std::string& text);

}  // namespace dryout::report_test
