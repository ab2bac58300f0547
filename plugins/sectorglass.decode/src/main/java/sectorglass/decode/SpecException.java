package sectorglass.decode;

import java.util.List;
import java.util.stream.Collectors;

/** A spec cannot be used; all mistakes that were found. */
public final class SpecException extends Exception {
    private static final long serialVersionUID = 1L;

    private final transient List<SpecProblem> problems;

    /** @param problems at least one */
    public SpecException(List<SpecProblem> problems) {
        super(problems.stream().map(SpecProblem::toString).collect(Collectors.joining("\n")));
        this.problems = List.copyOf(problems);
    }

    /** The mistakes, in order of their place. */
    public List<SpecProblem> problems() {
        return problems;
    }
}
