package sectorglass.practice.disk;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Grades answers: {@value #COUNT} points for the number of faults; per fault {@value #CHECK} for the check, 1 for the LBA, 1 for the byte in the sector,
 * {@value #VALUE} for the bytes that should stand there; {@value #FALSE} off for each answer that names no fault. Each answer counts for one fault, each fault
 * once; answers are given to faults so that the sum is greatest, the best pair first.
 */
public final class Grading {
    /** Points for the number of faults. */
    public static final int COUNT = 2;
    /** Points for the right check. */
    public static final int CHECK = 2;
    /** Points for the right place: one for the LBA, one for the byte. */
    public static final int PLACE = 2;
    /** Points for the right bytes. */
    public static final int VALUE = 2;
    /** Points that an answer costs which names no fault. */
    public static final int FALSE = 1;

    private final DiskKey key;

    /** Grades by the key of a disk. */
    public Grading(DiskKey key) {
        this.key = key;
    }

    /** Points that can be had. */
    public int most() {
        return COUNT + key.faults().size() * (CHECK + PLACE + VALUE);
    }

    /** Grades a form; one for another disk is worth nothing. */
    public Grade grade(AnswerForm form) {
        if (!form.code().equals(key.code())) {
            return new Grade(form.code(), form.name(), 0, most(), 0, List.of(), form.answers(), List.of());
        }
        List<Answer> left = new ArrayList<>(form.answers());
        Grade.Graded[] graded = new Grade.Graded[key.faults().size()];
        while (true) {
            Grade.Graded best = null;
            int at = -1;
            for (int i = 0; i < graded.length; i++) {
                for (Answer answer : graded[i] == null ? left : List.<Answer>of()) {
                    Grade.Graded pair = pair(key.faults().get(i), answer);
                    if (pair.points() > (best == null ? 0 : best.points())) {
                        best = pair;
                        at = i;
                    }
                }
            }
            if (best == null) {
                break;
            }
            graded[at] = best;
            left.remove(identity(left, best.answer()));
        }
        int count = form.count() != null && form.count() == key.faults().size() ? COUNT : 0;
        int points = count;
        for (int i = 0; i < graded.length; i++) {
            graded[i] = graded[i] == null ? new Grade.Graded(key.faults().get(i), null, 0, 0, 0) : graded[i];
            points += graded[i].points();
        }
        List<Answer> consequences = left.stream().filter(this::consequence).toList();
        List<Answer> wrong = left.stream().filter(a -> !consequence(a)).toList();
        return new Grade(key.code(), form.name(), Math.max(0, points - FALSE * wrong.size()), most(), count, List.of(graded), wrong, consequences);
    }

    private static int identity(List<Answer> answers, Answer wanted) {
        for (int i = 0; i < answers.size(); i++) {
            if (answers.get(i) == wanted) {
                return i;
            }
        }
        throw new IllegalStateException();
    }

    private Grade.Graded pair(KeyFault fault, Answer answer) {
        int check = names(answer.check(), fault.check()) ? CHECK : 0;
        int place = 0;
        int value = 0;
        if (answer.lba() != null) {
            long start = multiplied(answer.lba());
            boolean sector = fault.places().stream().anyMatch(p -> p.firstByte() + p.right().length > start && p.firstByte() - start < key.sectorSize())
                    || fault.seenByte() >= start && fault.seenByte() - start < key.sectorSize();
            long at = answer.inSector() == null || answer.inSector() >= key.sectorSize() ? -1 : start + answer.inSector();
            int length = answer.value() == null ? 0 : answer.value().length;
            boolean exact = at >= 0 && (fault.seenByte() == at || fault.places().stream().anyMatch(p -> p.contains(at) || p.covers(at, length)));
            place = exact ? 2 : sector ? 1 : 0;
            value = answer.value() != null && at >= 0 && fault.places().stream().anyMatch(p -> p.mendedBy(at, answer.value())) ? VALUE : 0;
        }
        return new Grade.Graded(fault, answer, check, place, value);
    }

    private long multiplied(long lba) {
        return lba > Long.MAX_VALUE / key.sectorSize() - 1 ? Long.MAX_VALUE - key.sectorSize() : lba * key.sectorSize();
    }

    /** Whether a learner's words name a check: its id, or what the form says of it. */
    private boolean names(String words, String check) {
        String said = plain(words);
        String known = key.choices().get(check);
        return said.equals(plain(check)) || known != null && said.equals(plain(known)) && unique(said);
    }

    private boolean unique(String words) {
        return key.choices().values().stream().filter(w -> plain(w).equals(words)).count() == 1;
    }

    private static String plain(String words) {
        return words.strip().toLowerCase(Locale.ROOT).replaceAll("\\s+", " ");
    }

    private boolean consequence(Answer answer) {
        if (answer.lba() == null || answer.inSector() == null) {
            return false;
        }
        long at = multiplied(answer.lba()) + answer.inSector();
        return key.also().stream().anyMatch(a -> names(answer.check(), a.check()) && at >= a.firstByte() && at - a.firstByte() < Math.max(1, a.length()));
    }

    /** The form that gets all points. */
    public AnswerForm solution() {
        List<Answer> answers = key.faults().stream().map(fault -> {
            Place place = fault.places().get(0);
            return new Answer(place.firstByte() / key.sectorSize(), (int) (place.firstByte() % key.sectorSize()), fault.check(), place.right());
        }).toList();
        return new AnswerForm(key.code(), "", key.faults().size(), answers);
    }

    /** The words of all checks that can be chosen. */
    public Map<String, String> choices() {
        return key.choices();
    }
}
