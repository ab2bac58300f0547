package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.eclipse.swt.custom.StyledText;
import org.junit.jupiter.api.Test;

import sectorglass.image.ReadState;
import sectorglass.image.SectorRanges;
import sectorglass.make.Demo;
import sectorglass.workbench.look.Texts;

class ReadStateTest {

    @Test
    void anUnreadSectorShowsNoValueAndSaysWhy() {
        Ui.open(Demo.Variant.PARTLY_READ);
        for (ReadState state : new ReadState[] {ReadState.FAILED, ReadState.SKIPPED, ReadState.UNREAD}) {
            SectorRanges runs = Ui.desk().open().image().inState(state, Ui.desk().open().image().all());
            assertFalse(runs.isEmpty(), "the demo disk has sectors that are " + state.word());
            long lba = runs.iterator().next().first();
            Ui.run(() -> Ui.desk().goTo(lba * 512, "test"));
            Ui.explained();
            if (Ui.desk().field() == null) {
                String meaning = Ui.get(() -> Ui.all(StyledText.class).get(0).getText());
                assertTrue(meaning.contains(Texts.of("meaning.notread." + state.word())), meaning);
                assertFalse(meaning.contains(Texts.of("guess.u8")), meaning);
            }
        }
    }
}
