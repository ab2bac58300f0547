package sectorglass.fat;

import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.Role;
import sectorglass.disk.VolumeSite;

/**
 * What the root directory says about the volume: label, names, dates.
 *
 * @param directory its slots; null where it cannot be located
 * @param label the first label entry, or null
 * @param labelSlot its slot, or -1
 * @param names names of its files and folders in capitals, deleted ones left out
 * @param latest latest legal date of writing, local time, or null
 * @param complete whether every slot up to its end was read
 */
record Root(Directory directory, String label, int labelSlot, List<String> names, LocalDateTime latest, boolean complete) {

    private static final int MOST_NAMES = 4096;

    static Root of(VolumeSite site, Geometry geometry, FatTable table) {
        Directory directory = null;
        boolean whole = true;
        if (geometry.kind() != FatKind.FAT32) {
            directory = Directory.fixedRoot(site, geometry);
        } else if (table.exists(geometry.rootCluster())) {
            Chain chain = Chain.follow(table, geometry.rootCluster(), Directory.MOST_SLOTS * 32L / geometry.clusterBytes() + 1);
            if (chain.clusters() == 0) {
                chain = Chain.contiguous((int) geometry.rootCluster(), 1);
            }
            whole = chain.end() == Chain.End.MARK;
            directory = Directory.of(site, geometry, chain);
        }
        return directory == null ? new Root(null, null, -1, List.of(), null, false) : scan(directory, whole);
    }

    private static Root scan(Directory directory, boolean wholeChain) {
        String label = null;
        int labelSlot = -1;
        List<String> names = new ArrayList<>();
        LocalDateTime latest = null;
        boolean complete = wholeChain;
        for (int slot = 0; slot < directory.slots(); slot++) {
            if (!directory.isRead(slot)) {
                complete = false;
                continue;
            }
            int first = directory.u8(slot, 0);
            if (first == 0) {
                return new Root(directory, label, labelSlot, names, latest, directory.nextUnread(0) >= slot);
            }
            int attributes = directory.u8(slot, 11);
            if (first == 0xE5 || (attributes & 0x3F) == 0x0F) {
                continue;
            }
            if ((attributes & 0x18) == 0x08) {
                if (labelSlot < 0) {
                    labelSlot = slot;
                    label = ShortName.label(java.util.Arrays.copyOfRange(directory.bytes(), slot * 32, slot * 32 + 11));
                }
            } else if (names.size() < MOST_NAMES) {
                names.add(ShortName.text(directory.bytes(), slot * 32, 0).toUpperCase(Locale.ROOT));
            }
            LocalDateTime written = DosTime.of(directory.u16(slot, 24), directory.u16(slot, 22));
            latest = written != null && (latest == null || written.isAfter(latest)) ? written : latest;
        }
        return new Root(directory, label, labelSlot, names, latest, complete);
    }

    /** Names that speak for a purpose. The DCIM folder is that of the camera standard DCF (JEITA CP-3461), EFI that of UEFI 2.10, 13.3. */
    List<Role> roles() {
        List<Role> roles = new ArrayList<>();
        List<String> folders = names.stream().filter(List.of("DCIM", "USERS", "DOCUME~1", "HOME", "PICTURES", "DOCUMENTS", "MUSIC",
                "VIDEOS", "DOCUME~2", "PRIVATE", "MP_ROOT", "AVCHD", "DOWNLOAD", "ANDROID")::contains).toList();
        if (!folders.isEmpty()) {
            roles.add(Role.of(Role.Kind.USER_FOLDERS, "the root directory holds " + String.join(", ", folders)));
        }
        List<String> boot = names.stream().filter(List.of("EFI", "BOOT", "BOOTMGR", "NTLDR", "IO.SYS", "LDLINUX.SYS", "SYSLINUX")::contains)
                .toList();
        if (!boot.isEmpty()) {
            roles.add(Role.of(Role.Kind.BOOT, "the root directory holds " + String.join(", ", boot)));
        }
        if (names.contains("WINDOWS") || names.contains("COMMAND.COM")) {
            roles.add(Role.of(Role.Kind.OPERATING_SYSTEM, "the root directory holds "
                    + (names.contains("WINDOWS") ? "WINDOWS" : "COMMAND.COM")));
        }
        if (names.contains("RECOVERY")) {
            roles.add(Role.of(Role.Kind.RECOVERY, "the root directory holds RECOVERY"));
        }
        if (roles.isEmpty() && !names.isEmpty()) {
            roles.add(Role.of(Role.Kind.USER_FOLDERS, names.size() + " files or folders in the root directory, none of a system"));
        }
        return List.copyOf(roles);
    }

    /** Dates and times as FAT packs them: local time, two seconds (Microsoft FAT specification, "Date and Time Formats"). */
    static final class DosTime {

        private DosTime() {
        }

        /** The moment, or null where it is not set or not legal. */
        static LocalDateTime of(int date, int time) {
            if (date == 0) {
                return null;
            }
            try {
                return LocalDateTime.of(1980 + (date >> 9), date >> 5 & 15, date & 31, time >> 11, time >> 5 & 63, (time & 31) * 2);
            } catch (DateTimeException e) {
                return null;
            }
        }
    }
}
