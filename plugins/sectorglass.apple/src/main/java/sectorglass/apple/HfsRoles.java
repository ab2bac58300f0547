package sectorglass.apple;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

import sectorglass.disk.Role;
import sectorglass.disk.VolumeFacts;
import sectorglass.image.SafeText;
import sectorglass.image.Window;

/** What an HFS+ volume is probably for, from the names in its root folder. Common practice, no source. */
final class HfsRoles {
    private static final Set<String> SYSTEM = Set.of("System", "Library", "Applications", "bin", "sbin", "usr", "private", "mach_kernel");
    private static final Set<String> RECOVERY = Set.of("com.apple.recovery.boot");
    private static final Set<String> BACKUP = Set.of("Backups.backupdb");
    private static final int MOST_LEAVES = 64;

    private HfsRoles() {
    }

    static List<Role> of(HfsTree catalog) {
        List<String> names = VolumeFacts.known(() -> names(catalog));
        List<Role> roles = new ArrayList<>();
        if (names == null) {
            return roles;
        }
        add(roles, names, Set.of("Users"), Role.Kind.USER_FOLDERS, "the root folder holds the folder of all users");
        add(roles, names, BACKUP, Role.Kind.USER_FOLDERS, "the root folder holds a folder of backups");
        if (names.contains("System")) {
            roles.add(Role.of(Role.Kind.OPERATING_SYSTEM, "the root folder holds the system's folder: System"));
        }
        add(roles, names, RECOVERY, Role.Kind.RECOVERY, "the root folder holds a recovery folder");
        List<String> other = names.stream().filter(n -> !SYSTEM.contains(n) && !RECOVERY.contains(n) && !BACKUP.contains(n) && !n.equals("Users")
                && !n.startsWith(".") && !HfsLinks.ownName(n)).toList();
        if (!other.isEmpty() && !names.contains("System") && roles.isEmpty()) {
            roles.add(Role.of(Role.Kind.USER_FOLDERS, "the root folder holds names that are none of the system's: " + some(other)));
        }
        return roles;
    }

    private static void add(List<Role> roles, List<String> names, Set<String> wanted, Role.Kind kind, String reason) {
        List<String> found = names.stream().filter(wanted::contains).toList();
        if (!found.isEmpty()) {
            roles.add(Role.of(kind, reason + ": " + some(found)));
        }
    }

    private static String some(List<String> names) {
        String shown = String.join(", ", names.stream().limit(4).map(SafeText::of).toList());
        return names.size() > 4 ? shown + " and " + (names.size() - 4) + " more" : shown;
    }

    /** Names in the root folder: its records stand at the start of the chain of leaves. */
    private static List<String> names(HfsTree catalog) {
        List<String> names = new ArrayList<>();
        long at = catalog.guessed ? 0 : catalog.node(0).u32be(24);
        for (int i = 0; i < MOST_LEAVES && at != 0 && at < catalog.nodes(); i++) {
            Window w = catalog.node(at);
            int[] offsets = HfsTree.leaf(w) ? HfsTree.records(w) : null;
            for (int k = 0; offsets != null && k + 1 < offsets.length; k++) {
                int data = HfsKeys.record(w, offsets[k], offsets[k + 1]);
                int type = HfsCensus.type(w, data, offsets[k + 1]);
                if (type != 0 && w.u32be(offsets[k] + 2) > 2) {
                    return names;
                }
                if ((type == HfsCensus.FOLDER || type == HfsCensus.FILE) && w.u32be(offsets[k] + 2) == 2) {
                    names.add(HfsFiles.name(w, offsets[k]));
                }
            }
            at = w.u32be(0);
        }
        return names;
    }
}
