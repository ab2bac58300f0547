package sectorglass.fat;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;

import sectorglass.disk.copy.CopyTarget;
import sectorglass.disk.copy.Disguise;
import sectorglass.disk.copy.StructureCopy;
import sectorglass.image.Progress;
import sectorglass.image.Window;

/**
 * The structures of a FAT volume without names: boot sectors, FSInfo, tables, and the folders that are in use. Slack of the tables is zero; other reserved
 * sectors and deleted folders stay out.
 */
final class FatCopy implements StructureCopy {
    private static final int CHUNK = 1 << 16;

    private final FatVolume volume;
    private final Geometry geometry;
    private final long start;
    private SlotDisguise slots;

    FatCopy(FatVolume volume) {
        this.volume = volume;
        geometry = volume.found().geometry();
        start = volume.site().firstByte();
    }

    @Override
    public void learn(Disguise disguise, Progress progress) {
        SlotDisguise own = new SlotDisguise(disguise);
        folders(progress, own::learn);
        slots = own;
    }

    private interface Use {
        void folder(Directory directory);
    }

    private void folders(Progress progress, Use use) {
        FolderList folders = volume.capability(FatFiles.class).orElseThrow().folders(progress);
        for (int i = 0; i < folders.size(); i++) {
            progress.checkCancelled();
            Directory directory = folders.guessed(i) ? null : folders.directory(i);
            if (directory != null && (i == 0 || begins(directory))) {
                use.folder(directory);
            }
        }
    }

    /** Whether a folder begins with "." and "..": otherwise it may be content that a wrong cluster number leads to. */
    private static boolean begins(Directory directory) {
        byte[] b = directory.bytes();
        return directory.slots() > 1 && directory.isRead(0) && directory.isRead(1) && b[0] == '.' && b[1] == ' ' && b[Directory.SLOT] == '.'
                && b[Directory.SLOT + 1] == '.' && b[Directory.SLOT + 2] == ' ';
    }

    @Override
    public void copy(CopyTarget to, Disguise disguise, Progress progress) {
        boot(to, 0, disguise);
        BootSector layout = volume.found().layout();
        if (geometry.kind() == FatKind.FAT32 && layout != null) {
            for (int sector : new int[] {layout.infoSector(), layout.infoSector() + layout.backupSector()}) {
                info(to, sector);
            }
            boot(to, layout.backupSector(), disguise);
        }
        for (int copy = 0; copy < geometry.fats(); copy++) {
            table(to, copy);
        }
        SlotDisguise own = slots == null ? new SlotDisguise(disguise) : slots;
        folders(progress, directory -> folder(to, directory, own));
    }

    private void boot(CopyTarget to, long sector, Disguise disguise) {
        if (sector < 0 || sector >= geometry.firstFat() || sector > 0 && sector == 0xFFFF) {
            return;
        }
        int size = Math.max(geometry.sectorBytes(), to.source().sectorSize());
        Window w = to.source().window(start + sector * geometry.sectorBytes(), size);
        if (w.start() % to.source().sectorSize() != 0) {
            return;
        }
        byte[] bytes = w.raw(0, size);
        int text = geometry.kind() == FatKind.FAT32 ? 71 : 43;
        label(bytes, text, disguise);
        for (int i = 0; disguise.numbers() && i < 4; i++) {
            bytes[text - 4 + i] ^= (byte) (disguise.random(text) >>> 8 * i);
        }
        // boot code stays out: what lies between the parameters and the signature
        Arrays.fill(bytes, text + 19, 510, (byte) 0);
        Arrays.fill(bytes, 512, size, (byte) 0);
        to.put(w, bytes);
    }

    /** A label of eleven bytes, unless it is the one that stands for none. */
    private static void label(byte[] bytes, int at, Disguise disguise) {
        String label = new String(bytes, at, 11, StandardCharsets.ISO_8859_1);
        if (!label.equals("NO NAME    ")) {
            byte[] fresh = disguise.label(label).getBytes(StandardCharsets.ISO_8859_1);
            System.arraycopy(fresh, 0, bytes, at, 11);
        }
    }

    private void info(CopyTarget to, int sector) {
        if (sector <= 0 || sector >= geometry.firstFat()) {
            return;
        }
        int size = Math.max(geometry.sectorBytes(), to.source().sectorSize());
        Window w = to.source().window(start + (long) sector * geometry.sectorBytes(), size);
        if (w.start() % to.source().sectorSize() == 0) {
            byte[] bytes = w.raw(0, size);
            Arrays.fill(bytes, 4, 484, (byte) 0);
            to.put(w, bytes);
        }
    }

    private void table(CopyTarget to, int copy) {
        long all = Math.min(geometry.tableBytes(), geometry.fatBytes());
        Window head = volume.site().window(geometry.fatByte(copy), 4);
        if (!head.isRead(0, 4) || head.u8(0) < 0xF0 || head.u8(1) != 0xFF) {
            // no table begins here: it may be content that wrong parameters lead to
            return;
        }
        int size = to.source().sectorSize();
        for (long at = 0; at < all; at += CHUNK) {
            int length = (int) Math.min(CHUNK, all - at);
            Window w = to.source().window(start + geometry.fatByte(copy) + at, (length + size - 1) / size * size);
            if (w.start() % size == 0) {
                byte[] bytes = w.raw(0, w.length());
                Arrays.fill(bytes, length, bytes.length, (byte) 0);
                to.put(w, bytes);
            }
        }
    }

    private void folder(CopyTarget to, Directory directory, SlotDisguise slots) {
        byte[] bytes = slots.disguised(directory);
        int size = to.source().sectorSize();
        for (int at = 0; at + size <= directory.slots() * Directory.SLOT; at += size) {
            Window w = to.source().window(directory.address(at / Directory.SLOT, 0), size);
            if (w.start() % size == 0) {
                to.put(w, Arrays.copyOfRange(bytes, at, at + size));
            }
        }
    }
}
