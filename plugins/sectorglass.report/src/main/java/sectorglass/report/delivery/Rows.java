package sectorglass.report.delivery;

import java.util.EnumSet;
import java.util.List;
import java.util.stream.Collectors;

import sectorglass.disk.FileStamp;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.outcome.DamagePlace;
import sectorglass.recovery.outcome.Outcome;

/** Files of all volumes, the damaged ones first, one after the other; the same order in every list. */
final class Rows {
    /** What becomes of a file, in the order of the lists: what needs a decision comes first. */
    enum Group {
        DAMAGED, NOT_OPENING, LOST, EMPTY, UNKNOWN, ENCRYPTED, ELSEWHERE, WHOLE
    }

    private final ReportInput input;
    private final Forms forms;

    Rows(ReportInput input, Forms forms) {
        this.input = input;
        this.forms = forms;
    }

    /** Sees files. */
    interface Visitor {
        /** @return whether to go on */
        boolean visit(int outcome, int entry, Group group);
    }

    Group group(int index, int entry) {
        Outcome outcome = input.outcomes().get(index);
        TestResult test = input.test(index, entry);
        return switch (outcome.state(entry)) {
            case DAMAGED -> Group.DAMAGED;
            case LOST -> Group.LOST;
            case UNKNOWN -> Group.UNKNOWN;
            case ENCRYPTED -> Group.ENCRYPTED;
            case ELSEWHERE -> Group.ELSEWHERE;
            case COMPLETE -> outcome.emptyInside(entry) ? Group.EMPTY
                    : test != null && test.answer() == TestResult.Answer.DAMAGED ? Group.NOT_OPENING : Group.WHOLE;
        };
    }

    /** Visits the files of these groups, group by group, until the visitor has enough. */
    void visit(EnumSet<Group> wanted, Visitor visitor) {
        boolean[] on = {true};
        for (Group group : wanted) {
            for (int i = 0; i < input.outcomes().size(); i++) {
                int index = i;
                Outcome outcome = input.outcomes().get(i);
                outcome.tree().walk(outcome.tree().root(), (entry, depth) -> {
                    if (on[0] && outcome.counted(entry) && group(index, entry) == group) {
                        on[0] = visitor.visit(index, entry, group);
                    }
                    return on[0];
                });
            }
        }
    }

    String path(int index, int entry) {
        Outcome outcome = input.outcomes().get(index);
        String path = outcome.tree().path(entry);
        return input.outcomes().size() == 1 ? path : place(outcome) + "/" + path;
    }

    /** What people call the part of the disk: its label, else its number. */
    String place(Outcome outcome) {
        String label = outcome.volume().volume().info().label();
        return label == null || label.isBlank() ? forms.of("place.number", outcome.volume().number()) : label.strip();
    }

    long bytes(int index, int entry) {
        return Math.max(0, input.outcomes().get(index).tree().bytes(entry));
    }

    String date(int index, int entry) {
        FileStamp stamp = input.outcomes().get(index).tree().modified(entry);
        return stamp == null ? "" : forms.moment(stamp.local());
    }

    /** What a customer should know of a file, in words. */
    String words(int index, int entry, Group group) {
        Outcome outcome = input.outcomes().get(index);
        if (group == Group.DAMAGED) {
            List<DamagePlace> places = outcome.damage(entry);
            EnumSet<DamagePlace.Part> parts = EnumSet.noneOf(DamagePlace.Part.class);
            places.forEach(place -> parts.add(place.part()));
            String where = parts.stream().map(part -> forms.of("part." + part.word())).collect(Collectors.joining(", "));
            long missing = Math.max(0, outcome.tree().bytes(entry)) - outcome.readBytes(entry);
            return forms.of("file.missing", forms.size(missing), where);
        }
        TestResult test = input.test(index, entry);
        if (test != null && (group == Group.NOT_OPENING || !test.nameFits())) {
            return test.sentence(forms.locale());
        }
        return "";
    }

    String state(Group group) {
        return forms.of("group." + group.name().toLowerCase(java.util.Locale.ROOT));
    }

    /** Files and bytes of each group. */
    long[][] count() {
        long[][] count = new long[Group.values().length][2];
        for (int i = 0; i < input.outcomes().size(); i++) {
            Outcome outcome = input.outcomes().get(i);
            int index = i;
            outcome.tree().walk(outcome.tree().root(), (entry, depth) -> {
                if (outcome.counted(entry)) {
                    long[] of = count[group(index, entry).ordinal()];
                    of[0]++;
                    of[1] += bytes(index, entry);
                }
                return true;
            });
        }
        return count;
    }
}
