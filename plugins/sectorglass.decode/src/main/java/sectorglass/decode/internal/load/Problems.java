package sectorglass.decode.internal.load;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

import org.yaml.snakeyaml.error.Mark;
import org.yaml.snakeyaml.nodes.Node;

import sectorglass.decode.SpecProblem;

/** Mistakes found in a spec and what it imports. */
final class Problems {
    private static final int MOST = 200;

    private final Set<SpecProblem> found = new LinkedHashSet<>();

    void add(String file, Node node, String sentence) {
        add(file, node == null ? null : node.getStartMark(), 0, sentence);
    }

    void add(String file, Mark mark, int further, String sentence) {
        if (found.size() < MOST) {
            found.add(new SpecProblem(file, mark == null ? 1 : mark.getLine() + 1, mark == null ? 1 : mark.getColumn() + 1 + further, sentence));
        }
    }

    boolean none() {
        return found.isEmpty();
    }

    List<SpecProblem> list() {
        List<SpecProblem> sorted = new ArrayList<>(found);
        sorted.sort(Comparator.comparing(SpecProblem::file).thenComparingInt(SpecProblem::line).thenComparingInt(SpecProblem::column));
        return sorted;
    }
}
