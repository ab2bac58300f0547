package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;

import sectorglass.disk.Role;
import sectorglass.image.SafeText;

/** What a volume is probably for, from the names in its root folder. Common practice, no source. */
final class RootRoles {
    private static final Set<String> USERS = Set.of("users", "documents and settings", "benutzer", "home", "dokumente und einstellungen");
    private static final Set<String> SYSTEM = Set.of("windows", "winnt");
    private static final Set<String> BOOT = Set.of("boot", "bootmgr", "bootnxt", "ntldr", "ntdetect.com", "boot.ini");
    private static final Set<String> RECOVERY = Set.of("recovery", "preload", "recoveryimage");
    /** Names that every volume gets, or that belong to the system. */
    private static final Set<String> COMMON = Set.of("system volume information", "$recycle.bin", "recycler", "recycled", "pagefile.sys",
            "hiberfil.sys", "swapfile.sys", "program files", "program files (x86)", "programdata", "perflogs", "dumpstack.log.tmp",
            "bootsect.bak", "documents and settings", "msocache", "$winreagent", "$sysreset", "config.msi", "$extend");

    private RootRoles() {
    }

    static List<Role> of(List<VolumeFacts.RootName> names) {
        List<Role> roles = new ArrayList<>();
        add(roles, Role.Kind.USER_FOLDERS, "the root folder holds the folder of all users", names, USERS);
        add(roles, Role.Kind.OPERATING_SYSTEM, "the root folder holds the system's folder", names, SYSTEM);
        List<String> other = names.stream().map(VolumeFacts.RootName::name).filter(n -> !known(n.toLowerCase(Locale.ROOT))).toList();
        if (!other.isEmpty()) {
            roles.add(Role.of(Role.Kind.USER_FOLDERS, "the root folder holds names that are none of the system's: " + some(other)));
        }
        add(roles, Role.Kind.RECOVERY, "the root folder holds a recovery folder", names, RECOVERY);
        add(roles, Role.Kind.BOOT, "the root folder holds start-up files", names, BOOT);
        return roles;
    }

    private static boolean known(String name) {
        return USERS.contains(name) || SYSTEM.contains(name) || BOOT.contains(name) || RECOVERY.contains(name) || COMMON.contains(name)
                || name.startsWith("$");
    }

    private static void add(List<Role> roles, Role.Kind kind, String reason, List<VolumeFacts.RootName> names, Set<String> wanted) {
        List<String> found = names.stream().map(VolumeFacts.RootName::name).filter(n -> wanted.contains(n.toLowerCase(Locale.ROOT))).toList();
        if (!found.isEmpty()) {
            roles.add(Role.of(kind, reason + ": " + some(found)));
        }
    }

    private static String some(List<String> names) {
        String shown = String.join(", ", names.stream().limit(4).map(SafeText::of).toList());
        return names.size() > 4 ? shown + " and " + (names.size() - 4) + " more" : shown;
    }
}
