package sectorglass.disk;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/** Puts together what type code, kind and content of a partition say of its use. */
final class Roles {

    private Roles() {
    }

    static List<Role> of(MapEntry entry, Volume volume) {
        Map<Role.Kind, List<String>> reasons = new EnumMap<>(Role.Kind.class);
        List<Role.Kind> order = new ArrayList<>();
        List<Role> said = new ArrayList<>();
        if (volume != null) {
            said.addAll(volume.roles());
            byKind(volume.info().kind(), said);
        }
        said.addAll(entry.roles());
        for (Role role : said) {
            if (!reasons.containsKey(role.role())) {
                order.add(role.role());
            }
            reasons.computeIfAbsent(role.role(), kind -> new ArrayList<>()).addAll(role.reasons());
        }
        if (order.isEmpty()) {
            return List.of(Role.of(Role.Kind.UNKNOWN, volume == null ? "no volume was recognised" : "nothing that was read speaks for a use"));
        }
        return order.stream().map(kind -> new Role(kind, reasons.get(kind).stream().distinct().toList())).toList();
    }

    private static void byKind(String kind, List<Role> out) {
        switch (kind) {
            case "swap" -> out.add(Role.of(Role.Kind.SWAP, "a swap header was recognised"));
            case "luks1", "luks2", "bitlocker", "filevault" ->
                out.add(Role.of(Role.Kind.ENCRYPTED, "the header of a locked volume was recognised: " + kind));
            case "lvm2", "md" -> out.add(Role.of(Role.Kind.SET_MEMBER, "the header of a set was recognised: " + kind));
            default -> { }
        }
    }
}
