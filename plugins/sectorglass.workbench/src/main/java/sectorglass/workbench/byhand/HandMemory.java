package sectorglass.workbench.byhand;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.Map;
import java.util.Optional;
import java.util.zip.CRC32;

import org.eclipse.core.runtime.ILog;
import org.eclipse.core.runtime.preferences.InstanceScope;
import org.osgi.service.prefs.BackingStoreException;
import org.osgi.service.prefs.Preferences;

import sectorglass.decode.FormatInfo;
import sectorglass.disk.Structure;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.DeskListener;
import sectorglass.workbench.opening.Bench;

/** Keeps in the workspace which formats a person put over which bytes of an image, and puts them there again when it is opened. */
public final class HandMemory implements DeskListener {
    /** The parameter that a format may ask for and that is known everywhere. */
    static final String SECTOR_SIZE = "sector_size";

    private final Desk desk;

    /** A memory that listens to this desk. */
    public HandMemory(Desk desk) {
        this.desk = desk;
    }

    private static Preferences node(Path image) {
        String path = image.toAbsolutePath().normalize().toString();
        CRC32 crc = new CRC32();
        crc.update(path.getBytes(StandardCharsets.UTF_8));
        String name = image.getFileName() + "-" + HexFormat.of().toHexDigits((int) crc.getValue());
        return InstanceScope.INSTANCE.getNode("sectorglass.workbench").node("byhand").node(name.replace('/', '_'));
    }

    /** A structure as a person wants it. */
    static Structure structure(FormatInfo format, long at, int length, boolean sized, int sectorSize) {
        return Structure.plain(format.title(), format.id(), at, length, sized ? Map.of(SECTOR_SIZE, (long) sectorSize) : Map.of());
    }

    @Override
    public void diskChanged() {
        if (desk.open() == null || desk.open().path() == null) {
            return;
        }
        Preferences kept = node(desk.open().path());
        try {
            for (String key : kept.keys()) {
                String[] parts = kept.get(key, "").split(" ");
                long at = Long.parseLong(key);
                int length = parts.length == 3 ? Integer.parseInt(parts[1]) : 0;
                Optional<FormatInfo> format = Bench.catalogue().find(parts[0]);
                if (format.isPresent() && at >= 0 && length > 0 && at <= desk.open().image().bytes() - length) {
                    desk.apply(structure(format.get(), at, length, parts[2].equals("sized"), desk.open().image().sectorSize()));
                }
            }
        } catch (BackingStoreException | NumberFormatException e) {
            ILog.get().warn("The formats chosen by hand could not be read.", e);
        }
    }

    /** Keeps a choice. */
    static void keep(Path image, Structure structure) {
        if (image != null) {
            Preferences kept = node(image);
            kept.put(Long.toString(structure.range().start()), structure.format() + " " + structure.range().length() + " "
                    + (structure.params().isEmpty() ? "plain" : "sized"));
            flush(kept);
        }
    }

    /** Forgets a choice. */
    static void forget(Path image, Structure structure) {
        if (image != null) {
            Preferences kept = node(image);
            kept.remove(Long.toString(structure.range().start()));
            flush(kept);
        }
    }

    private static void flush(Preferences kept) {
        try {
            kept.flush();
        } catch (BackingStoreException e) {
            ILog.get().warn("The format chosen by hand could not be kept.", e);
        }
    }
}
