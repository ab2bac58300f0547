package sectorglass.workbench.findings;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;

import sectorglass.image.ByteRange;
import sectorglass.verify.Finding;
import sectorglass.verify.Verdict;
import sectorglass.workbench.look.Sign;

/**
 * The rows that answer a question. Made off the window's thread.
 *
 * @param rows heads and findings in the order shown
 * @param shown the findings that answer it, whether their group is open or not, without those that only follow from others
 */
record Rows(List<Row> rows, List<Finding> shown) {
    private static final int LONGEST_CHAIN = 64;

    /**
     * Answers.
     *
     * @param all every verdict, folded and passed ones too
     */
    static Rows of(List<Finding> all, Question question) {
        List<Finding> shown = new ArrayList<>();
        for (Finding finding : all) {
            if (finding.cause() == null && question.wants(finding)) {
                shown.add(finding);
            }
        }
        Comparator<Finding> order = question.order().order(question.backwards());
        shown.sort(order);
        List<Row> rows = switch (question.grouping()) {
            case NONE -> shown.stream().map(finding -> single(finding, 0)).toList();
            case CAUSE -> byCause(all, shown, question);
            case CHECK -> grouped(shown, question, Finding::check, order);
            case STRUCTURE -> grouped(shown, question, Rows::structureKey, Comparator.comparing(Rows::structure).thenComparing(order));
        };
        return new Rows(rows, shown);
    }

    private static ByteRange structure(Finding finding) {
        return finding.structure() == null ? finding.where() : finding.structure();
    }

    private static String structureKey(Finding finding) {
        ByteRange bytes = structure(finding);
        return bytes.start() + "+" + bytes.length();
    }

    private static Row single(Finding finding, int depth) {
        return new Row(null, finding, null, depth, 0, Sign.of(finding));
    }

    private static List<Row> grouped(List<Finding> shown, Question question, Function<Finding, String> key, Comparator<Finding> first) {
        Map<String, List<Finding>> groups = new LinkedHashMap<>();
        for (Finding finding : shown) {
            groups.computeIfAbsent(key.apply(finding), any -> new ArrayList<>()).add(finding);
        }
        List<Map.Entry<String, List<Finding>>> sorted = new ArrayList<>(groups.entrySet());
        sorted.sort(Map.Entry.comparingByValue(Comparator.comparing(group -> group.get(0), first)));
        List<Row> rows = new ArrayList<>();
        for (Map.Entry<String, List<Finding>> group : sorted) {
            List<Finding> members = group.getValue();
            Sign worst = members.stream().map(Sign::of).min(Comparator.naturalOrder()).orElseThrow();
            ByteRange bytes = question.grouping() == Grouping.STRUCTURE ? structure(members.get(0)) : null;
            rows.add(new Row(group.getKey(), null, bytes, 0, members.size(), worst));
            if (!question.closed().contains(group.getKey())) {
                members.forEach(finding -> rows.add(single(finding, 1)));
            }
        }
        return rows;
    }

    private static List<Row> byCause(List<Finding> all, List<Finding> shown, Question question) {
        Map<Integer, Integer> causes = new HashMap<>();
        for (Finding finding : all) {
            if (finding.cause() != null && finding.verdict() != Verdict.PASSED) {
                causes.put(finding.id(), finding.cause());
            }
        }
        Map<Integer, List<Finding>> following = new HashMap<>();
        for (Finding finding : all) {
            if (causes.containsKey(finding.id())) {
                following.computeIfAbsent(root(causes, finding.id()), any -> new ArrayList<>()).add(finding);
            }
        }
        List<Row> rows = new ArrayList<>();
        for (Finding finding : shown) {
            List<Finding> below = following.getOrDefault(finding.id(), List.of());
            String key = "cause " + finding.id();
            rows.add(new Row(key, finding, null, 0, below.size(), Sign.of(finding)));
            if (!question.closed().contains(key)) {
                below.forEach(each -> rows.add(single(each, 1)));
            }
        }
        return rows;
    }

    private static int root(Map<Integer, Integer> causes, int id) {
        int at = id;
        for (int i = 0; i < LONGEST_CHAIN && causes.containsKey(at); i++) {
            at = causes.get(at);
        }
        return at;
    }
}
