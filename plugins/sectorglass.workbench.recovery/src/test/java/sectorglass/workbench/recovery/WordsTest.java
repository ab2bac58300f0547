package sectorglass.workbench.recovery;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Locale;
import java.util.ResourceBundle;
import java.util.TreeSet;
import java.util.regex.Pattern;

import org.junit.jupiter.api.Test;

import sectorglass.disk.FileState;
import sectorglass.recovery.MergePlan;
import sectorglass.recovery.ReadPlan;
import sectorglass.recovery.SameDisk;

class WordsTest {
    private static final Pattern PLACE = Pattern.compile("\\{\\d\\}");

    @Test
    void germanHasTheSameTextsWithTheSamePlaces() {
        ResourceBundle english = Words.bundle(Locale.ROOT);
        ResourceBundle german = Words.bundle(Locale.GERMAN);
        assertEquals(Locale.GERMAN, german.getLocale());
        assertEquals(new TreeSet<>(english.keySet()), new TreeSet<>(german.keySet()));
        for (String key : english.keySet()) {
            assertEquals(places(english.getString(key)), places(german.getString(key)), key);
        }
    }

    private static TreeSet<String> places(String text) {
        return new TreeSet<>(PLACE.matcher(text).results().map(r -> r.group()).toList());
    }

    @Test
    void everyStateStageReasonAndAnswerHasAWord() {
        ResourceBundle english = Words.bundle(Locale.ROOT);
        for (FileState state : FileState.values()) {
            assertTrue(english.containsKey("state." + state.word()), state.word());
        }
        for (ReadPlan.Kind kind : ReadPlan.Kind.values()) {
            assertTrue(english.containsKey("stage." + kind.name().toLowerCase(Locale.ROOT)), kind.name());
        }
        for (MergePlan.Reason reason : MergePlan.Reason.values()) {
            assertTrue(english.containsKey("copies.why." + reason.name().toLowerCase(Locale.ROOT)), reason.name());
        }
        for (SameDisk.Answer answer : SameDisk.Answer.values()) {
            assertTrue(english.containsKey("copies.same." + answer.name().toLowerCase(Locale.ROOT)), answer.name());
        }
    }
}
