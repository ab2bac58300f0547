package sectorglass.workbench.model;

import java.util.ArrayList;
import java.util.List;

/** The places gone to, in order, and which of them is shown. */
public final class Trail {
    private static final int LONGEST = 200;

    private final List<Step> steps = new ArrayList<>();
    private int at = -1;

    /** All steps, oldest first. */
    public List<Step> steps() {
        return List.copyOf(steps);
    }

    /** Index of the step that is shown, or -1. */
    public int at() {
        return at;
    }

    /** Adds a place after the one that is shown; those that followed it are forgotten. */
    public void add(Step step) {
        while (steps.size() > at + 1) {
            steps.remove(steps.size() - 1);
        }
        steps.add(step);
        if (steps.size() > LONGEST) {
            steps.remove(0);
        }
        at = steps.size() - 1;
    }

    /** The step shown is at another address now; the caret walked on. */
    void moved(long address) {
        if (at >= 0) {
            steps.set(at, new Step(address, steps.get(at).by()));
        }
    }

    /** Goes to a step. */
    Step go(int index) {
        at = index;
        return steps.get(index);
    }

    void clear() {
        steps.clear();
        at = -1;
    }
}
