package sectorglass.workbench.opening;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.function.BiConsumer;

import org.eclipse.core.runtime.ILog;
import org.eclipse.core.runtime.preferences.IEclipsePreferences;
import org.eclipse.core.runtime.preferences.InstanceScope;
import org.osgi.service.prefs.BackingStoreException;

import sectorglass.image.OpenOptions;
import sectorglass.workbench.model.Desk;

/**
 * Remembers which image was open, and where the caret stood, when the window was closed, and opens it again at the next start. An image
 * opened in an unusual way (parts named one by one, a dump form, a text log, a device) is left to the person.
 */
public final class Session {
    private static final String IMAGE = "session.image";
    private static final String READ_MAP = "session.readmap";
    private static final String SECTOR_SIZE = "session.sectorsize";
    private static final String CARET = "session.caret";

    private static OpenOptions options;

    private Session() {
    }

    /** The image on the desk was opened like this. */
    static void opened(OpenOptions how) {
        options = how;
    }

    /** How the image on the desk was opened, or null where that is not to be repeated. */
    public static OpenOptions how() {
        return options;
    }

    /** Keeps what is on the desk; the window is about to close. */
    public static void keep(Desk desk) {
        IEclipsePreferences node = InstanceScope.INSTANCE.getNode("sectorglass.workbench");
        forget(node);
        if (desk.open() != null && desk.open().path() != null && options != null && usual(options)) {
            node.put(IMAGE, desk.open().path().toAbsolutePath().toString());
            node.putLong(CARET, desk.caret());
            node.putInt(SECTOR_SIZE, options.sectorSize());
            if (options.readMap() != null) {
                node.put(READ_MAP, options.readMap().toAbsolutePath().toString());
            }
        }
        flush(node);
    }

    private static boolean usual(OpenOptions how) {
        return !how.deviceAnyway() && how.parts().isEmpty() && how.partList() == null && !how.alone() && !how.rawAnyway() && how.dumpForm() == null
                && how.logFile() == null;
    }

    /** Opens the image of the last session, if it is still there. It is forgotten first, so that one that cannot be opened is tried once. */
    public static void restore(BiConsumer<Path, OpenOptions> open) {
        IEclipsePreferences node = InstanceScope.INSTANCE.getNode("sectorglass.workbench");
        String image = node.get(IMAGE, "");
        String readMap = node.get(READ_MAP, "");
        int sectorSize = node.getInt(SECTOR_SIZE, 0);
        long caret = node.getLong(CARET, 0);
        if (image.isEmpty()) {
            return;
        }
        forget(node);
        flush(node);
        if (Files.isReadable(Path.of(image)) && (readMap.isEmpty() || Files.isReadable(Path.of(readMap)))) {
            Desk desk = Bench.desk();
            desk.add(new Return(desk, caret));
            OpenOptions how = OpenOptions.DEFAULT.withReadMap(readMap.isEmpty() ? null : Path.of(readMap));
            open.accept(Path.of(image), sectorSize == 0 ? how : how.withSectorSize(sectorSize));
        }
    }

    private static void forget(IEclipsePreferences node) {
        for (String key : new String[] {IMAGE, READ_MAP, SECTOR_SIZE, CARET}) {
            node.remove(key);
        }
    }

    private static void flush(IEclipsePreferences node) {
        try {
            node.flush();
        } catch (BackingStoreException e) {
            ILog.get().warn("The open image could not be kept for the next start.", e);
        }
    }

    /** Puts the caret back once the disk lies on the desk. */
    private record Return(Desk desk, long caret) implements sectorglass.workbench.model.DeskListener {
        @Override
        public void caretMoved() {
            if (desk.open() != null) {
                desk.remove(this);
                if (desk.caret() == 0 && caret > 0) {
                    desk.move(caret);
                }
            }
        }
    }
}
