package sectorglass.workbench.tests;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.Arrays;
import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicReference;

import org.eclipse.swt.SWT;
import org.eclipse.swt.graphics.GC;
import org.eclipse.swt.graphics.Image;
import org.eclipse.swt.layout.FillLayout;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Shell;
import org.junit.jupiter.api.Test;

import sectorglass.make.Demo;
import sectorglass.workbench.model.DeskListener;
import sectorglass.workbench.sectors.Density;
import sectorglass.workbench.sectors.SectorsCanvas;

/** Measures; asserts nothing. Run by the script in features/bench. */
class Figures {
    private static final int STEPS = 400;

    @Test
    void paint() {
        Ui.open(Demo.Variant.GPT);
        measure("glossed, 16 columns, demo disk", Density.GLOSSED, 16, 0);
        measure("marked, 64 columns, demo disk", Density.MARKED, 64, 0);
        measure("bytes, 64 columns, demo disk", Density.BYTES, 64, 0);
        // file records: every row full of fields
        long records = 68_200_000L / 1024 * 1024;
        measure("glossed, 16 columns, NTFS file records", Density.GLOSSED, 16, records);
        measure("marked, 64 columns, NTFS file records", Density.MARKED, 64, records);
        ScrollTest.vast();
        measure("glossed, 16 columns, 20 TB", Density.GLOSSED, 16, ScrollTest.Vast.BYTES / 2);
        measure("marked, 64 columns, 20 TB", Density.MARKED, 64, ScrollTest.Vast.BYTES / 2);
    }

    private static void measure(String what, Density density, int columns, long start) {
        double[] wall = new double[STEPS];
        double[] cpu = new double[STEPS];
        Shell[] shell = new Shell[1];
        SectorsCanvas[] canvas = new SectorsCanvas[1];
        long[] painted = new long[1];
        ThreadMXBean threads = ManagementFactory.getThreadMXBean();
        Ui.run(() -> {
            shell[0] = new Shell(Display.getCurrent(), SWT.NO_TRIM);
            shell[0].setBounds(0, 0, 2560, 1440);
            shell[0].setLayout(new FillLayout());
            canvas[0] = new SectorsCanvas(shell[0], Ui.desk());
            canvas[0].density(density);
            canvas[0].columns(columns);
            canvas[0].onPaint(nanos -> painted[0] += nanos);
            shell[0].open();
            canvas[0].top(start / columns);
        });
        // the first pass fills the gloss and warms up, the second one counts: paint handler, then flush until the display has drawn
        for (int pass = 0; pass < 2; pass++) {
            for (int i = 0; i < STEPS; i++) {
                int step = i;
                Ui.run(() -> {
                    Display display = Display.getCurrent();
                    painted[0] = 0;
                    canvas[0].top(start / columns + 3L * step + 1);
                    canvas[0].redraw();
                    long busy = threads.getCurrentThreadCpuTime();
                    canvas[0].update();
                    while (painted[0] == 0) {
                        if (!display.readAndDispatch()) {
                            busy = threads.getCurrentThreadCpuTime();
                            display.sleep();
                        }
                    }
                    long began = System.nanoTime();
                    flush();
                    wall[step] = (painted[0] + System.nanoTime() - began) / 1e6;
                    cpu[step] = (threads.getCurrentThreadCpuTime() - busy) / 1e6;
                });
                Ui.settle();
            }
        }
        Ui.run(() -> shell[0].dispose());
        Arrays.sort(wall);
        Arrays.sort(cpu);
        System.out.printf(Locale.ROOT, "paint %-40s wall: median %.1f ms, 95th percentile %.1f ms; processor: median %.1f ms, 95th percentile %.1f ms%n",
                what, wall[STEPS / 2], wall[STEPS * 95 / 100], cpu[STEPS / 2], cpu[STEPS * 95 / 100]);
    }

    /** Waits until the display has drawn: a pixel is read back. */
    private static void flush() {
        Display display = Display.getCurrent();
        Image pixel = new Image(display, 1, 1);
        GC gc = new GC(display);
        gc.copyArea(pixel, 5, 5);
        gc.dispose();
        pixel.getImageData();
        pixel.dispose();
    }

    @Test
    void explain() throws InterruptedException {
        Ui.open(Demo.Variant.GPT);
        long[] places = {512 + 24, 1024 + 200, 68_157_440L + 48, 68_200_448L + 60, 17_825_792L + 30};
        double[] millis = new double[200];
        AtomicReference<CountDownLatch> latch = new AtomicReference<>();
        DeskListener listener = new DeskListener() {
            @Override
            public void explained() {
                if (Ui.desk().settled()) {
                    latch.get().countDown();
                }
            }
        };
        latch.set(new CountDownLatch(1));
        Ui.run(() -> Ui.desk().add(listener));
        for (int i = 0; i < millis.length; i++) {
            long place = places[i % places.length] + i / places.length % 8;
            latch.set(new CountDownLatch(1));
            long began = System.nanoTime();
            Ui.run(() -> Ui.desk().move(place));
            latch.get().await();
            millis[i] = (System.nanoTime() - began) / 1e6;
        }
        Ui.run(() -> Ui.desk().remove(listener));
        Arrays.sort(millis);
        System.out.printf(Locale.ROOT, "caret to explained field: median %.1f ms, 95th percentile %.1f ms, worst %.1f ms%n", millis[100],
                millis[190], millis[199]);
    }
}
