package sectorglass.exfat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.Role;
import sectorglass.disk.VolumeSite;

/**
 * The root directory: the entries that only it holds, and the names beside them. Source: Microsoft exFAT specification, sections 7.1
 * to 7.5.
 *
 * @param chain its clusters
 * @param directory its slots, or null where it cannot be located
 * @param bitmaps slots of type 81
 * @param upcases slots of type 82
 * @param labels slots of type 83
 * @param names names of files and folders in capitals, as many as are read at first
 * @param end slot of the end mark, or the number of slots
 * @param complete whether every slot up to the end was read and the chain is whole
 */
record Root(Chain chain, Directory directory, List<Integer> bitmaps, List<Integer> upcases, List<Integer> labels, List<String> names,
        int end, boolean complete) {

    /** Bytes of a root directory that are read at first. */
    private static final long FIRST_BYTES = 4 << 20;
    private static final int MOST_NAMES = 1024;
    private static final int MOST_MARKED = 64;

    static Root of(VolumeSite site, Geometry geometry, Fat fat) {
        Chain chain = Chain.follow(fat, geometry.rootCluster(), Directory.MOST_BYTES / geometry.clusterBytes() + 1);
        List<Integer> bitmaps = new ArrayList<>();
        List<Integer> upcases = new ArrayList<>();
        List<Integer> labels = new ArrayList<>();
        List<String> names = new ArrayList<>();
        if (chain.clusters() == 0) {
            return new Root(chain, null, bitmaps, upcases, labels, names, 0, false);
        }
        Directory directory = Directory.of(site, geometry, chain, FIRST_BYTES);
        int end = directory.slots();
        for (int slot = 0; slot < end; slot++) {
            if (!directory.isRead(slot)) {
                continue;
            }
            switch (directory.u8(slot, 0)) {
                case 0x00 -> end = slot;
                case 0x81 -> mark(bitmaps, slot);
                case 0x82 -> mark(upcases, slot);
                case 0x83 -> mark(labels, slot);
                case 0x85 -> name(directory, slot, names);
                default -> { }
            }
        }
        boolean ended = end < directory.slots() || chain.end() == Chain.End.MARK
                && directory.slots() * 32L == chain.clusters() * geometry.clusterBytes();
        return new Root(chain, directory, bitmaps, upcases, labels, names, end, ended && directory.nextUnread(0) >= end);
    }

    private static void mark(List<Integer> slots, int slot) {
        if (slots.size() < MOST_MARKED) {
            slots.add(slot);
        }
    }

    private static void name(Directory directory, int slot, List<String> names) {
        if (names.size() < MOST_NAMES && slot + 2 < directory.slots() && directory.isRead(slot, 3)
                && directory.u8(slot + 1, 0) == 0xC0 && directory.u8(slot + 2, 0) == 0xC1) {
            StringBuilder name = new StringBuilder();
            int length = Math.min(15, directory.u8(slot + 1, 3));
            for (int i = 0; i < length; i++) {
                name.append((char) directory.u16(slot + 2, 2 + 2 * i));
            }
            names.add(name.toString().toUpperCase(Locale.ROOT));
        }
    }

    /** The label, or null. */
    String label() {
        if (labels.isEmpty()) {
            return null;
        }
        int slot = labels.get(0);
        StringBuilder label = new StringBuilder();
        for (int i = 0; i < Math.min(11, directory.u8(slot, 1)); i++) {
            label.append((char) directory.u16(slot, 2 + 2 * i));
        }
        return label.isEmpty() ? null : label.toString();
    }

    /** Slot of the allocation bitmap that belongs to the active FAT, or -1. */
    int bitmap(int activeFat) {
        return bitmaps.stream().filter(slot -> (directory.u8(slot, 1) & 1) == activeFat).findFirst().orElse(-1);
    }

    /** Names that speak for a purpose. The DCIM folder is that of the camera standard DCF (JEITA CP-3461), EFI that of UEFI 2.10, 13.3. */
    List<Role> roles() {
        List<Role> roles = new ArrayList<>();
        List<String> folders = names.stream().filter(List.of("DCIM", "USERS", "HOME", "PICTURES", "DOCUMENTS", "MUSIC", "VIDEOS",
                "PRIVATE", "MP_ROOT", "AVCHD", "DOWNLOAD", "ANDROID")::contains).toList();
        if (!folders.isEmpty()) {
            roles.add(Role.of(Role.Kind.USER_FOLDERS, "the root directory holds " + String.join(", ", folders)));
        }
        if (names.contains("EFI")) {
            roles.add(Role.of(Role.Kind.BOOT, "the root directory holds EFI"));
        }
        if (roles.isEmpty() && !names.isEmpty()) {
            roles.add(Role.of(Role.Kind.USER_FOLDERS, names.size() + " files or folders in the root directory, none of a system"));
        }
        return List.copyOf(roles);
    }
}
