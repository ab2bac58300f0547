package sectorglass.volumes;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A volume group as its metadata text describes it. Source: LVM2 text format (vgcfgbackup(8)).
 *
 * @param name of the group
 * @param id of the group
 * @param seqno grows with every change
 * @param extentBytes bytes per extent
 * @param disks physical volumes by the text's own name
 * @param volumes logical volumes by name
 */
record LvmGroup(String name, String id, long seqno, long extentBytes, Map<String, Disk> disks, Map<String, Logical> volumes) {
    private static final long MOST_SECTORS = Long.MAX_VALUE >> 12;

    /**
     * A physical volume.
     *
     * @param id as its label has it
     * @param start byte of its first extent
     * @param extents number of extents
     */
    record Disk(String id, long start, long extents) { }

    /**
     * A logical volume.
     *
     * @param visible whether it is one for people, not a part of another
     */
    record Logical(String name, String id, boolean visible, List<Segment> segments) { }

    /**
     * A run of extents of one kind.
     *
     * @param start first extent in the volume
     * @param extents number of them
     * @param type the text's word: striped, raid1, thin …
     * @param stripeBytes bytes of a stripe, 0 where there is one area
     * @param areas where it stands
     */
    record Segment(long start, long extents, String type, long stripeBytes, List<Area> areas) { }

    /**
     * A place.
     *
     * @param name of a physical or logical volume
     * @param extent its extent there
     */
    record Area(String name, long extent) { }

    /** The group of a text, or null where it describes none. */
    static LvmGroup of(String text) {
        try {
            for (Map.Entry<String, Object> entry : LvmText.parse(text).entrySet()) {
                if (entry.getValue() instanceof Map<?, ?> section && section.get("id") instanceof String id
                        && section.get("seqno") instanceof Long seqno) {
                    return group(entry.getKey(), id, seqno, section);
                }
            }
        } catch (IllegalArgumentException e) {
            return null; // not such a text
        }
        return null;
    }

    private static LvmGroup group(String name, String id, long seqno, Map<?, ?> section) {
        Map<String, Disk> disks = new LinkedHashMap<>();
        sections(section, "physical_volumes").forEach((key, pv) -> disks.put(key, new Disk(String.valueOf(pv.get("id")),
                sectors(pv, "pe_start") * 512, number(pv, "pe_count"))));
        Map<String, Logical> volumes = new LinkedHashMap<>();
        sections(section, "logical_volumes").forEach((key, lv) -> volumes.put(key, new Logical(key, String.valueOf(lv.get("id")),
                lv.get("status") instanceof List<?> status && status.contains("VISIBLE"), segments(lv))));
        return new LvmGroup(name, id, seqno, sectors(section, "extent_size") * 512, disks, volumes);
    }

    private static List<Segment> segments(Map<?, ?> lv) {
        List<Segment> all = new ArrayList<>();
        long count = Math.min(number(lv, "segment_count"), 100_000);
        for (long i = 1; i <= count; i++) {
            if (lv.get("segment" + i) instanceof Map<?, ?> s) {
                String type = String.valueOf(s.get("type"));
                all.add(new Segment(number(s, "start_extent"), number(s, "extent_count"), type, sectors(s, "stripe_size") * 512, areas(s, type)));
            }
        }
        return all;
    }

    private static List<Area> areas(Map<?, ?> segment, String type) {
        List<Area> all = new ArrayList<>();
        if (segment.get("raids") instanceof List<?> raids) {
            for (int i = 1; i < raids.size(); i += 2) {
                all.add(new Area(String.valueOf(raids.get(i)), 0)); // metadata volume, data volume, …
            }
            return all;
        }
        Object places = segment.get(type.equals("mirror") ? "mirrors" : "stripes");
        if (places instanceof List<?> list) {
            for (int i = 0; i + 1 < list.size(); i += 2) {
                all.add(new Area(String.valueOf(list.get(i)), list.get(i + 1) instanceof Long extent ? extent : -1));
            }
        }
        return all;
    }

    private static Map<String, Map<?, ?>> sections(Map<?, ?> parent, String key) {
        Map<String, Map<?, ?>> all = new LinkedHashMap<>();
        if (parent.get(key) instanceof Map<?, ?> section) {
            section.forEach((name, value) -> {
                if (value instanceof Map<?, ?> own) {
                    all.put(String.valueOf(name), own);
                }
            });
        }
        return all;
    }

    private static long number(Map<?, ?> section, String key) {
        return section.get(key) instanceof Long value && value >= 0 ? value : 0;
    }

    private static long sectors(Map<?, ?> section, String key) {
        return Math.min(number(section, key), MOST_SECTORS);
    }
}
