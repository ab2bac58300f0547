package sectorglass.workbench.tests;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

import org.eclipse.swt.SWT;
import org.eclipse.swt.graphics.GC;
import org.eclipse.swt.graphics.Image;
import org.eclipse.swt.graphics.ImageLoader;
import org.eclipse.swt.graphics.Point;
import org.eclipse.swt.graphics.Rectangle;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.ui.PlatformUI;
import org.junit.jupiter.api.Test;

import sectorglass.image.ReadState;
import sectorglass.make.Demo;
import sectorglass.verify.Finding;
import sectorglass.workbench.look.Look;

/** Makes the pictures of the documentation; run by features/uitest/screenshots.sh. Properties: uitest.pictures, uitest.size, uitest.suffix. */
class Screenshots {
    private static final Path FOLDER = Path.of(System.getProperty("uitest.pictures", "target/pictures"));
    private static final String SUFFIX = System.getProperty("uitest.suffix", "");

    @Test
    void scenes() throws IOException {
        size();
        for (boolean dark : new boolean[] {false, true}) {
            String theme = theme(dark);
            Ui.run(() -> Ui.desk().show(null, null));
            shoot("welcome-" + theme);
            Ui.open(Demo.Variant.GPT);
            place(0x1B0, "mbr-" + theme);
            place(512, "gpt-header-" + theme);
            Finding crc = Ui.desk().open().listed().stream().filter(f -> f.check().equals("gpt.entries.crc32")).findFirst().orElseThrow();
            Ui.run(() -> Ui.desk().choose(crc));
            Ui.explained();
            shoot("finding-" + theme);
            long ntfs = Ui.desk().open().disk().partitions().get(2).range().first() * 512;
            place(ntfs, "ntfs-boot-sector-" + theme);
            Ui.run(() -> Ui.desk().open().disk().partitions().get(2).volume().address("record", 5).ifPresent(at -> Ui.desk().goTo(at, "record 5")));
            Ui.explained();
            shoot("ntfs-record-" + theme);
            Ui.open(Demo.Variant.PARTLY_READ);
            long failed = Ui.desk().open().image().inState(ReadState.FAILED, Ui.desk().open().image().all()).iterator().next().first();
            place(Math.max(0, failed * 512 - 64), "partly-read-" + theme);
        }
        theme(false);
    }

    /** Gives the window the size that the pictures shall have. */
    static void size() throws IOException {
        Files.createDirectories(FOLDER);
        String[] size = System.getProperty("uitest.size", "1920x1080").split("x");
        Ui.run(() -> {
            Shell shell = Ui.window();
            shell.setMaximized(false);
            int width = Integer.parseInt(size[0]);
            int height = Integer.parseInt(size[1]);
            shell.setBounds(0, 0, width, height);
            // without a window manager there is no frame, though the toolkit leaves room for one
            Point end = end(shell);
            shell.setBounds(0, 0, 2 * width - end.x, 2 * height - end.y);
            PlatformUI.getWorkbench().getActiveWorkbenchWindow().getActivePage().resetPerspective();
        });
    }

    /** Sets a theme; what names of pictures in it end with. */
    static String theme(boolean dark) {
        Ui.run(() -> Look.set(dark));
        return (dark ? "dark" : "light") + SUFFIX;
    }

    /** The lower right corner of what a window shows. */
    private static Point end(Shell shell) {
        Rectangle client = shell.getClientArea();
        return shell.toDisplay(client.x + client.width, client.y + client.height);
    }

    static void place(long address, String name) {
        Ui.run(() -> Ui.desk().goTo(address, "typed"));
        Ui.explained();
        shoot(name);
    }

    static void shoot(String name) {
        Ui.settle();
        // the gloss comes from a worker; the picture waits until nothing is missing any more
        for (int i = 0; i < 20; i++) {
            Ui.settle();
            try {
                Thread.sleep(50);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }
        Ui.run(() -> {
            Display display = Display.getCurrent();
            Point end = end(Ui.window());
            Image image = new Image(display, end.x, end.y);
            GC gc = new GC(display);
            gc.copyArea(image, 0, 0);
            gc.dispose();
            ImageLoader loader = new ImageLoader();
            loader.data = new org.eclipse.swt.graphics.ImageData[] {image.getImageData(display.getPrimaryMonitor().getZoom())};
            image.dispose();
            loader.save(FOLDER.resolve(name + ".png").toString(), SWT.IMAGE_PNG);
        });
        if (!Files.exists(FOLDER.resolve(name + ".png"))) {
            throw new UncheckedIOException(new IOException(name));
        }
    }
}
