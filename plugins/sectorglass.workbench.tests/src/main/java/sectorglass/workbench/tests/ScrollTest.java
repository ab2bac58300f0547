package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.eclipse.swt.SWT;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

import sectorglass.disk.Disk;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.sectors.SectorsCanvas;

class ScrollTest {
    /** 20 TB of zeros. */
    record Vast() implements SectorImage {
        static final long BYTES = 20_000_000_000_000L / 512 * 512;

        @Override
        public String name() {
            return "vast";
        }

        @Override
        public int sectorSize() {
            return 512;
        }

        @Override
        public long bytes() {
            return BYTES;
        }

        @Override
        public SectorStates read(long firstByte, byte[] into, int offset, int length) {
            return SectorStates.allRead(512, firstByte, length);
        }

        @Override
        public ReadState state(long lba) {
            return lba < sectors() ? ReadState.READ : ReadState.UNREAD;
        }

        @Override
        public SectorRanges inState(ReadState state, SectorRange within) {
            return state == ReadState.READ ? SectorRanges.of(within) : SectorRanges.EMPTY;
        }
    }

    static void vast() {
        Ui.run(() -> Ui.desk().show(OpenDisk.surveyed(null, new Disk(new Vast(), java.util.List.of(), java.util.List.of(), null),
                java.util.List.of()), Bench.catalogue()));
        Ui.explained();
    }

    @AfterEach
    void close() {
        Ui.run(() -> Ui.desk().show(null, null));
    }

    @Test
    void everyRowOfTwentyTerabytesIsReached() {
        vast();
        SectorsCanvas canvas = Ui.canvas();
        java.util.SplittableRandom random = new java.util.SplittableRandom(20);
        for (int i = 0; i < 200; i++) {
            long address = i == 0 ? Vast.BYTES - 1 : random.nextLong(Vast.BYTES);
            Ui.run(() -> Ui.desk().goTo(address, "test"));
            assertNotNull(Ui.get(() -> canvas.cell(address)), "byte " + address + " is in view");
        }
        long middle = 12_345_678_901_234L;
        Ui.run(() -> Ui.desk().goTo(middle, "test"));
        long top = Ui.get(canvas::top);
        Ui.run(() -> canvas.top(top + 1));
        assertEquals(top + 1, Ui.get(canvas::top).longValue(), "one row down, whatever the scroll bar can count");
    }

    @Test
    void theScrollBarReachesBothEnds() {
        vast();
        SectorsCanvas canvas = Ui.canvas();
        Ui.run(() -> {
            canvas.getVerticalBar().setSelection(canvas.getVerticalBar().getMaximum());
            canvas.getVerticalBar().notifyListeners(SWT.Selection, new org.eclipse.swt.widgets.Event());
        });
        assertNotNull(Ui.get(() -> canvas.cell(Vast.BYTES - 1)));
        Ui.run(() -> {
            canvas.getVerticalBar().setSelection(0);
            canvas.getVerticalBar().notifyListeners(SWT.Selection, new org.eclipse.swt.widgets.Event());
        });
        assertEquals(0L, Ui.get(canvas::top).longValue());
        assertTrue(Ui.get(() -> canvas.cell(0)) != null);
    }
}
