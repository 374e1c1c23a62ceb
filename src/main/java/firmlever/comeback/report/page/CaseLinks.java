package firmlever.comeback.report.page;

import firmlever.comeback.Shelf.Cases;
import firmlever.comeback.visits.Comeback;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The cases that the numbers of the page lead to, in the order in which they are first named. */
final class CaseLinks {
  /**
   * The cases behind a number.
   *
   * @param anchor its place on the page
   */
  record Target(String title, String anchor, Cases cases) {}

  private final Map<String, Target> targets = new LinkedHashMap<>();
  private final List<Comeback> rows = new ArrayList<>();

  /** Keeps the cases behind a number, and tells the anchor it leads to. */
  String anchor(String title, Cases cases) {
    String anchor =
        targets.containsKey(title) ? targets.get(title).anchor() : "k" + (targets.size() + 1);
    targets.put(title, new Target(title, anchor, cases));
    return anchor;
  }

  /** The page leads straight to the row of this one, so that the row must be there. */
  void needRow(Comeback comeback) {
    rows.add(comeback);
  }

  Collection<Target> targets() {
    return targets.values();
  }

  /** Those whose rows must be there. */
  List<Comeback> rows() {
    return rows;
  }

  /** The place of a case's row on the page. */
  static String rowId(Comeback comeback) {
    return "c-" + comeback.brake() + "/" + comeback.first() + "/" + comeback.second();
  }
}
