package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.fail;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;

import org.eclipse.swt.SWT;
import org.eclipse.swt.dnd.Clipboard;
import org.eclipse.swt.dnd.TextTransfer;
import org.eclipse.swt.graphics.GC;
import org.eclipse.swt.graphics.Image;
import org.eclipse.swt.graphics.ImageData;
import org.eclipse.swt.graphics.Rectangle;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.ui.IViewPart;
import org.eclipse.ui.PartInitException;
import org.eclipse.ui.PlatformUI;
import org.eclipse.ui.handlers.IHandlerService;

import sectorglass.image.OpenOptions;
import sectorglass.make.Demo;
import sectorglass.workbench.commands.OpenImages;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.parts.SectorsPart;
import sectorglass.workbench.sectors.SectorsCanvas;

/** What the tests do to the window. Waits for conditions, never for a time. */
final class Ui {
    private static final long LIMIT = 60_000;
    private static final Map<Demo.Variant, Demo.Written> DEMOS = new EnumMap<>(Demo.Variant.class);
    private static Path folder;

    private Ui() {
    }

    /** Runs something on the thread of the window and gives its result. */
    static <T> T get(Supplier<T> what) {
        AtomicReference<T> result = new AtomicReference<>();
        AtomicReference<Throwable> thrown = new AtomicReference<>();
        PlatformUI.getWorkbench().getDisplay().syncExec(() -> {
            try {
                result.set(what.get());
            } catch (RuntimeException | Error e) {
                thrown.set(e);
            }
        });
        if (thrown.get() instanceof Error e) {
            throw e;
        }
        if (thrown.get() instanceof RuntimeException e) {
            throw e;
        }
        return result.get();
    }

    static void run(Runnable what) {
        get(() -> {
            what.run();
            return null;
        });
    }

    /** Waits until a condition holds on the thread of the window. */
    static void until(String what, BooleanSupplier condition) {
        long end = System.currentTimeMillis() + LIMIT;
        while (!get(condition::getAsBoolean)) {
            if (System.currentTimeMillis() > end) {
                fail("waited in vain for: " + what);
            }
            Thread.yield();
            try {
                Thread.sleep(10);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }
    }

    /** Lets the window do what is waiting. */
    static void settle() {
        run(() -> {
            Display display = Display.getCurrent();
            while (display.readAndDispatch()) {
                // until nothing waits
            }
        });
    }

    static Desk desk() {
        return Bench.desk();
    }

    /** A variant of the demo disk, written once. */
    static Demo.Written demo(Demo.Variant variant) {
        return DEMOS.computeIfAbsent(variant, wanted -> {
            try {
                if (folder == null) {
                    folder = Files.createTempDirectory("sectorglass-uitest");
                    folder.toFile().deleteOnExit();
                }
                return Demo.write(folder, wanted);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        });
    }

    /** Opens a variant of the demo disk and waits for the findings. */
    static void open(Demo.Variant variant) {
        Demo.Written written = demo(variant);
        open(written.image(), OpenOptions.DEFAULT.withReadMap(written.readMap()));
    }

    /** Opens an image and waits for the findings. */
    static void open(Path image, OpenOptions options) {
        run(() -> desk().show(null, null));
        run(() -> OpenImages.open(image, options));
        until("the image is open and judged", () -> desk().open() != null && desk().open().findings() != null);
        explained();
    }

    /** Waits until the caret is explained. */
    static void explained() {
        settle();
        until("the caret is explained", () -> desk().settled());
        settle();
    }

    static SectorsCanvas canvas() {
        return get(() -> ((SectorsPart) part(SectorsPart.ID)).canvas());
    }

    /** A part, shown and active. On the thread of the window. */
    static IViewPart part(String id) {
        try {
            return PlatformUI.getWorkbench().getActiveWorkbenchWindow().getActivePage().showView(id);
        } catch (PartInitException e) {
            throw new IllegalStateException(e);
        }
    }

    /** Runs a command by its id, as a menu does. */
    static void command(String id) {
        run(() -> {
            try {
                PlatformUI.getWorkbench().getService(IHandlerService.class).executeCommand(id, null);
            } catch (Exception e) {
                throw new IllegalStateException(e);
            }
        });
    }

    /** Presses a key on a control. */
    static void key(Control control, int keyCode, int stateMask) {
        run(() -> {
            Event event = new Event();
            event.keyCode = keyCode;
            event.stateMask = stateMask;
            control.notifyListeners(SWT.KeyDown, event);
        });
        settle();
    }

    /** Clicks on the cell of a byte. */
    static void click(SectorsCanvas canvas, long address) {
        run(() -> {
            canvas.reveal(address);
            Rectangle cell = canvas.cell(address);
            mouse(canvas, SWT.MouseDown, cell.x + cell.width / 2, cell.y + cell.height / 2);
            mouse(canvas, SWT.MouseUp, cell.x + cell.width / 2, cell.y + cell.height / 2);
        });
        explained();
    }

    static void mouse(Control control, int type, int x, int y) {
        Event event = new Event();
        event.button = 1;
        event.x = x;
        event.y = y;
        event.count = 1;
        control.notifyListeners(type, event);
    }

    /** All controls below one, of a type. On the thread of the window. */
    static <T extends Control> List<T> all(Control root, Class<T> type) {
        List<T> found = new ArrayList<>();
        if (type.isInstance(root)) {
            found.add(type.cast(root));
        }
        if (root instanceof Composite composite) {
            for (Control child : composite.getChildren()) {
                found.addAll(all(child, type));
            }
        }
        return found;
    }

    /** All controls of the workbench window, of a type. */
    static <T extends Control> List<T> all(Class<T> type) {
        return all(window(), type);
    }

    /** The shell of the workbench window. On the thread of the window. */
    static Shell window() {
        return PlatformUI.getWorkbench().getActiveWorkbenchWindow() != null ? PlatformUI.getWorkbench().getActiveWorkbenchWindow().getShell()
                : PlatformUI.getWorkbench().getWorkbenchWindows()[0].getShell();
    }

    /** The text on the clipboard. On the thread of the window. */
    static String clipboard() {
        Clipboard clipboard = new Clipboard(Display.getCurrent());
        Object contents = clipboard.getContents(TextTransfer.getInstance());
        clipboard.dispose();
        return String.valueOf(contents);
    }

    /** What a control shows. */
    static ImageData picture(Control control) {
        return get(() -> {
            control.update();
            Rectangle area = control.getBounds();
            Image image = new Image(control.getDisplay(), Math.max(1, area.width), Math.max(1, area.height));
            GC gc = new GC(image);
            control.print(gc);
            gc.dispose();
            ImageData data = image.getImageData();
            image.dispose();
            return data;
        });
    }
}
