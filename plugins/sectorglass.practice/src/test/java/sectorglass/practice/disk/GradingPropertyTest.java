package sectorglass.practice.disk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

/** Grading never takes a wrong answer for a right one, whatever the answer; the solution always has all points. */
class GradingPropertyTest {
    private static final int SECTOR = 512;
    private static final List<String> CHECKS = List.of("mbr.signature", "gpt.header.crc32", "fat.copies-equal", "ext.links");

    @Provide
    Arbitrary<DiskKey> keys() {
        Arbitrary<KeyFault> fault = Combinators.combine(Arbitraries.of(CHECKS), Arbitraries.longs().between(0, 3), Arbitraries.integers().between(16, 480),
                Arbitraries.bytes().array(byte[].class).ofMinSize(1).ofMaxSize(8), Arbitraries.integers().between(0, 7)).as(GradingPropertyTest::fault);
        return fault.list().ofMaxSize(5).map(faults -> new DiskKey("AB12-CD34", 1, 5, 0, "practice.img", SECTOR, 100, "00", apart(faults), List.of(),
                Map.of("mbr.signature", "55 AA stands at 510", "gpt.header.crc32", "the sum is right")));
    }

    /** Two faults never lie at the same place. */
    private static List<KeyFault> apart(List<KeyFault> faults) {
        List<KeyFault> kept = new ArrayList<>();
        for (KeyFault fault : faults) {
            Place place = fault.places().get(0);
            if (kept.stream().noneMatch(k -> Math.abs(k.places().get(0).firstByte() - place.firstByte()) < 64)) {
                kept.add(fault);
            }
        }
        return kept;
    }

    private static KeyFault fault(String check, long lba, int at, byte[] right, int flip) {
        byte[] wrong = right.clone();
        wrong[flip % wrong.length] ^= 0x11;
        byte[] around = new byte[right.length + 8];
        Arrays.fill(around, (byte) 0x77);
        System.arraycopy(right, 0, around, 4, right.length);
        long firstByte = lba * SECTOR + at;
        return new KeyFault(check, check, check, List.of(new Place(firstByte, right, wrong, firstByte - 4, around)), firstByte, null, "what", "means", "do", "source");
    }

    @Provide
    Arbitrary<AnswerForm> forms() {
        Arbitrary<Answer> answer = Combinators.combine(Arbitraries.longs().between(0, 4).injectNull(0.1), Arbitraries.integers().between(0, 520).injectNull(0.1),
                Arbitraries.of("mbr.signature", "GPT.header.CRC32", "fat.copies-equal", "ext.links", "55 AA  stands at 510", "nonsense", ""),
                Arbitraries.bytes().array(byte[].class).ofMaxSize(9).injectNull(0.2)).as(Answer::new);
        return Combinators.combine(answer.list().ofMaxSize(8), Arbitraries.integers().between(0, 6).injectNull(0.2))
                .as((answers, count) -> new AnswerForm("AB12-CD34", "somebody", count, answers));
    }

    @Property(tries = 2000)
    void noPointIsGivenForNothing(@ForAll("keys") DiskKey key, @ForAll("forms") AnswerForm form) {
        Grade grade = new Grading(key).grade(form);
        int sum = form.count() != null && form.count() == key.faults().size() ? Grading.COUNT : 0;
        List<Answer> used = new ArrayList<>();
        for (Grade.Graded graded : grade.faults()) {
            if (graded.answer() == null) {
                assertEquals(0, graded.points());
                continue;
            }
            assertTrue(used.stream().noneMatch(a -> a == graded.answer()), "one answer counts twice");
            used.add(graded.answer());
            assertTrue(graded.points() > 0);
            assertEquals(checkPoints(graded.fault(), graded.answer(), key), graded.check());
            assertTrue(graded.place() <= placePoints(graded.fault(), graded.answer()), graded.toString());
            assertTrue(graded.value() == 0 || mends(graded.fault(), graded.answer()), graded.toString());
            sum += graded.points();
        }
        assertEquals(form.answers().size(), used.size() + grade.wrong().size() + grade.consequences().size());
        assertEquals(Math.max(0, sum - grade.wrong().size()), grade.points());
        assertTrue(grade.points() <= grade.most());
        assertEquals(right(key, form), grade.perfect(), form + " by " + key);
    }

    private static int checkPoints(KeyFault fault, Answer answer, DiskKey key) {
        String said = answer.check().toLowerCase(java.util.Locale.ROOT).replaceAll("\\s+", " ");
        return said.equals(fault.check()) || said.equals(String.valueOf(key.choices().get(fault.check())).toLowerCase(java.util.Locale.ROOT)) ? 2 : 0;
    }

    private static int placePoints(KeyFault fault, Answer answer) {
        Place place = fault.places().get(0);
        if (answer.lba() == null || answer.lba() != place.firstByte() / SECTOR) {
            return 0;
        }
        int length = answer.value() == null ? 0 : answer.value().length;
        long at = answer.inSector() == null ? -1 : answer.lba() * SECTOR + answer.inSector();
        boolean touches = at >= place.firstByte() && at < place.firstByte() + place.right().length;
        boolean reaches = at >= place.firstByte() - 4 && at < place.firstByte() && at + length > place.firstByte();
        return answer.inSector() != null && answer.inSector() < SECTOR && (touches || reaches) ? 2 : 1;
    }

    /** Writes the value over the wrong bytes and looks whether the right ones stand there. */
    private static boolean mends(KeyFault fault, Answer answer) {
        Place place = fault.places().get(0);
        byte[] there = place.around().clone();
        int start = (int) (place.firstByte() - place.aroundByte());
        System.arraycopy(place.wrong(), 0, there, start, place.wrong().length);
        long at = answer.lba() * SECTOR + answer.inSector() - place.aroundByte();
        if (at < 0 || at + answer.value().length > there.length) {
            return false;
        }
        System.arraycopy(answer.value(), 0, there, (int) at, answer.value().length);
        return Arrays.equals(there, place.around());
    }

    /** Whether a form is right in everything: the count, and one whole answer for each fault. */
    private static boolean right(DiskKey key, AnswerForm form) {
        return form.count() != null && form.count() == key.faults().size() && form.answers().size() == key.faults().size()
                && key.faults().stream().allMatch(f -> form.answers().stream().anyMatch(a -> a.lba() != null && a.inSector() != null && a.value() != null
                        && checkPoints(f, a, key) == 2 && placePoints(f, a) == 2 && mends(f, a)));
    }

    @Property(tries = 300)
    void theSolutionHasAllPoints(@ForAll("keys") DiskKey key) {
        Grading grading = new Grading(key);
        Grade grade = grading.grade(grading.solution());
        assertEquals(grading.most(), grade.points());
        assertTrue(grade.perfect());
    }

    @Property(tries = 300)
    void aDamagedSolutionHasNot(@ForAll("keys") DiskKey key, @ForAll int pick, @ForAll byte change) {
        if (key.faults().isEmpty() || change == 0) {
            return;
        }
        Grading grading = new Grading(key);
        List<Answer> answers = new ArrayList<>(grading.solution().answers());
        int index = Math.floorMod(pick, answers.size());
        Answer a = answers.get(index);
        byte[] value = a.value().clone();
        value[Math.floorMod(pick, value.length)] ^= change;
        answers.set(index, new Answer(a.lba(), a.inSector(), a.check(), value));
        Grade grade = grading.grade(new AnswerForm(key.code(), "", answers.size(), answers));
        assertFalse(grade.perfect());
        assertEquals(grading.most() - Grading.VALUE, grade.points());
    }

    @Example
    void namingEveryCheckDoesNotPay() {
        DiskKey key = new DiskKey("AB12-CD34", 1, 5, 0, "practice.img", SECTOR, 100, "00",
                List.of(fault("mbr.signature", 0, 100, new byte[] {1, 2}, 0)), List.of(), Map.of());
        List<Answer> all = CHECKS.stream().map(check -> new Answer(0L, 100, check, null)).toList();
        assertEquals(Grading.CHECK + Grading.PLACE - 3 * Grading.FALSE, new Grading(key).grade(new AnswerForm(key.code(), "", null, all)).points());
    }

    @Example
    void keyAndFormComeBackAsTheyWereWritten() throws IOException {
        DiskKey key = new DiskKey("AB12-CD34", Long.MIN_VALUE, 5, 2, "practice.img", SECTOR, 100, "00",
                List.of(fault("mbr.signature", 3, 100, new byte[] {1, -2}, 0)), List.of(new DiskKey.Consequence("ext.links", 7, 2)), Map.of("mbr.signature", "ä"));
        Path folder = Files.createTempDirectory("practice");
        new AnswerKey(List.of(key)).write(folder.resolve("key.json"));
        DiskKey again = AnswerKey.read(folder.resolve("key.json")).disk("AB12-CD34").orElseThrow();
        assertEquals(key.seed(), again.seed());
        assertEquals(key.also(), again.also());
        assertEquals(key.choices(), again.choices());
        assertTrue(new Grading(again).grade(new Grading(key).solution()).perfect());
        new Grading(key).solution().write(folder.resolve("answer.json"));
        assertTrue(new Grading(key).grade(AnswerForm.read(folder.resolve("answer.json"))).perfect());
        try (var files = Files.list(folder)) {
            for (Path file : files.toList()) {
                Files.delete(file);
            }
        }
        Files.delete(folder);
    }
}
