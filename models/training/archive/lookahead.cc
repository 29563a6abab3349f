// Turns a graph into one that OpenFst can look ahead in by its output labels, and writes how that numbered the labels
// anew, a pair in each line. Use: lookahead GRAPH.fst LOOKAHEAD.fst PAIRS.txt
#include <fst/fstlib.h>
#include <fst/matcher-fst.h>

#include <fstream>
#include <iostream>
#include <memory>
#include <utility>
#include <vector>

int main(int count, char **arguments) {
  if (count != 4) {
    std::cerr << "use: lookahead GRAPH.fst LOOKAHEAD.fst PAIRS.txt\n";
    return 2;
  }
  const std::unique_ptr<fst::StdVectorFst> plain(fst::StdVectorFst::Read(arguments[1]));
  if (!plain) return 1;
  const fst::StdOLabelLookAheadFst lookahead(*plain);
  std::vector<std::pair<fst::StdArc::Label, fst::StdArc::Label>> pairs;
  fst::LabelLookAheadRelabeler<fst::StdArc>::RelabelPairs(lookahead, &pairs);
  std::ofstream lines(arguments[3]);
  for (const auto &[before, after] : pairs) lines << before << " " << after << "\n";
  lines.close();
  return lookahead.Write(arguments[2]) && lines ? 0 : 1;
}
