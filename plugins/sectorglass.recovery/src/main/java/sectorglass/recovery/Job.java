package sectorglass.recovery;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

import com.fasterxml.jackson.annotation.JsonAnyGetter;
import com.fasterxml.jackson.annotation.JsonAnySetter;
import com.fasterxml.jackson.annotation.JsonInclude;

/**
 * Everything that is known of one recovery job beside the image itself. Immutable; absent lists are empty. Fields that a later version
 * wrote are kept as they are.
 *
 * @param version of the file form, {@value #VERSION} now
 * @param reference the customer's reference number; no name by default
 * @param parts files of the image with the LBA of their first sector
 * @param dumpForm how stored bytes map to sectors, by name of the setting
 * @param sectorSize bytes per sector, 0 where it is found from structures
 * @param readMaps read maps in the order they were given, later ones above earlier ones
 * @param zones file with head zones, or null
 * @param passes passes over the disk: what was read when
 * @param chosen paths of chosen files and folders: volume number and path
 * @param marks named byte ranges
 * @param notes free notes
 * @param search results of searches, by kind
 * @param proposals files of proposals
 * @param media what came in and what goes out: the customer's drive, the return medium
 * @param accepted findings that somebody looked at and accepted as they are
 * @param approvals the customer's approvals, as they were received
 * @param log who did what when; only ever grows
 * @param other fields of later versions
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Job(int version, String reference, List<Part> parts, Map<String, String> dumpForm, int sectorSize, List<String> readMaps,
        String zones, List<Pass> passes, List<Chosen> chosen, List<Mark> marks, List<Note> notes, Map<String, Object> search,
        List<String> proposals, List<Medium> media, List<Accepted> accepted, List<Approval> approvals, List<Entry> log, @JsonAnySetter @JsonAnyGetter Map<String, Object> other) {

    /** The file form written now. */
    public static final int VERSION = 1;
    private static final String FURTHER_DISKS = "furtherDisks";

    /**
     * A part of the image. Parts follow each other in the order of the list.
     *
     * @param file null where the part is missing
     * @param firstLba sector in which it begins
     * @param sectors sectors it touches, or null where its file tells
     * @param bytes bytes it stands for, or null where its file tells; never null for a missing part
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Part(String file, long firstLba, Long sectors, Long bytes) {

        /** A part as long as its file. */
        public Part(String file, long firstLba, Long sectors) {
            this(file, firstLba, sectors, null);
        }
    }

    /**
     * A further disk of the set that the image belongs to.
     *
     * @param file its image, from the folder of the job file where it is not absolute
     * @param readMap its read map, or null
     */
    public record FurtherDisk(String file, String readMap) { }

    /** A pass over the disk. */
    public record Pass(String name, Instant at, String readMap, String remark) { }

    /** A chosen file or folder. */
    public record Chosen(int volume, String path) { }

    /** A named byte range. */
    public record Mark(long firstByte, long length, String name, String note) { }

    /** A note. */
    public record Note(Instant at, String text) { }

    /**
     * A medium.
     *
     * @param name what it is called at the bench
     * @param kind {@code source}, {@code copy} or {@code return}
     * @param note make, condition, how it is kept
     */
    public record Medium(String name, String kind, String note) { }

    /**
     * A finding that was accepted.
     *
     * @param check id of the rule
     * @param firstByte image byte, or null for all findings of the rule
     */
    public record Accepted(Instant at, String who, String check, Long firstByte, String note) { }

    /**
     * An approval.
     *
     * @param at when it was received
     * @param who recorded it
     * @param by who approved; a reference by default, no name
     * @param how it was received: on paper, by telephone …; null where nobody said
     * @param note what was approved, and what not
     */
    public record Approval(Instant at, String who, String by, String how, String note) { }

    /** A line of the log. */
    public record Entry(Instant at, String who, String what) { }

    /** Lists that are absent in the file are empty. */
    public Job {
        parts = parts == null ? List.of() : List.copyOf(parts);
        dumpForm = dumpForm == null ? Map.of() : Map.copyOf(dumpForm);
        readMaps = readMaps == null ? List.of() : List.copyOf(readMaps);
        passes = passes == null ? List.of() : List.copyOf(passes);
        chosen = chosen == null ? List.of() : List.copyOf(chosen);
        marks = marks == null ? List.of() : List.copyOf(marks);
        notes = notes == null ? List.of() : List.copyOf(notes);
        search = search == null ? Map.of() : search;
        proposals = proposals == null ? List.of() : List.copyOf(proposals);
        media = media == null ? List.of() : List.copyOf(media);
        accepted = accepted == null ? List.of() : List.copyOf(accepted);
        approvals = approvals == null ? List.of() : List.copyOf(approvals);
        log = log == null ? List.of() : List.copyOf(log);
        other = other == null ? new LinkedHashMap<>() : other;
    }

    /** A job without anything yet. */
    public static Job empty() {
        return new Job(VERSION, null, null, null, 0, null, null, null, null, null, null, null, null, null, null, null, null, null);
    }

    /** The same with a mark more. */
    public Job withMark(Mark mark) {
        List<Mark> more = new ArrayList<>(marks);
        more.add(mark);
        return withMarks(more);
    }

    /** The same with other marks. */
    public Job withMarks(List<Mark> changed) {
        return new Job(version, reference, parts, dumpForm, sectorSize, readMaps, zones, passes, chosen, changed, notes, search,
                proposals, media, accepted, approvals, log, other);
    }

    /** The same with other parts and sector size. */
    public Job withParts(List<Part> changed, int size) {
        return new Job(version, reference, changed, dumpForm, size, readMaps, zones, passes, chosen, marks, notes, search, proposals, media, accepted, approvals,
                log, other);
    }

    /** The same with other read maps. */
    public Job withReadMaps(List<String> changed) {
        return new Job(version, reference, parts, dumpForm, sectorSize, changed, zones, passes, chosen, marks, notes, search,
                proposals, media, accepted, approvals, log, other);
    }

    /** The same with a pass more. */
    public Job withPass(Pass pass) {
        List<Pass> more = new ArrayList<>(passes);
        more.add(pass);
        return new Job(version, reference, parts, dumpForm, sectorSize, readMaps, zones, more, chosen, marks, notes, search, proposals, media, accepted, approvals,
                log, other);
    }

    /** The same with other chosen files. */
    public Job withChosen(List<Chosen> changed) {
        return new Job(version, reference, parts, dumpForm, sectorSize, readMaps, zones, passes, changed, marks, notes, search,
                proposals, media, accepted, approvals, log, other);
    }

    /** The same with a note more. */
    public Job withNote(Note note) {
        List<Note> more = new ArrayList<>(notes);
        more.add(note);
        return new Job(version, reference, parts, dumpForm, sectorSize, readMaps, zones, passes, chosen, marks, more, search, proposals, media, accepted, approvals,
                log, other);
    }

    /** The same with results of a search, which replace earlier ones of that kind. */
    public Job withSearch(String kind, Object results) {
        Map<String, Object> changed = new LinkedHashMap<>(search);
        changed.put(kind, results);
        return new Job(version, reference, parts, dumpForm, sectorSize, readMaps, zones, passes, chosen, marks, notes, changed,
                proposals, media, accepted, approvals, log, other);
    }

    /** The same with another reference. */
    public Job withReference(String changed) {
        return new Job(version, changed, parts, dumpForm, sectorSize, readMaps, zones, passes, chosen, marks, notes, search, proposals, media, accepted, approvals, log, other);
    }

    /** The same with other head zones. */
    public Job withZones(String changed) {
        return new Job(version, reference, parts, dumpForm, sectorSize, readMaps, changed, passes, chosen, marks, notes, search, proposals, media, accepted, approvals, log, other);
    }

    /** The same with a medium more. */
    public Job withMedium(Medium medium) {
        return new Job(version, reference, parts, dumpForm, sectorSize, readMaps, zones, passes, chosen, marks, notes, search, proposals, with(media, medium), accepted, approvals, log, other);
    }

    /** The same with an accepted finding more. */
    public Job withAccepted(Accepted finding) {
        return new Job(version, reference, parts, dumpForm, sectorSize, readMaps, zones, passes, chosen, marks, notes, search, proposals, media, with(accepted, finding), approvals, log, other);
    }

    /** The same without some accepted findings; the log is for the caller. */
    public Job withoutAccepted(Collection<Accepted> withdrawn) {
        List<Accepted> fewer = new ArrayList<>(accepted);
        fewer.removeAll(withdrawn);
        return new Job(version, reference, parts, dumpForm, sectorSize, readMaps, zones, passes, chosen, marks, notes, search, proposals, media, fewer, approvals, log, other);
    }

    /** The same with an approval more. */
    public Job withApproval(Approval approval) {
        return new Job(version, reference, parts, dumpForm, sectorSize, readMaps, zones, passes, chosen, marks, notes, search, proposals, media, accepted, with(approvals, approval), log, other);
    }

    private static <T> List<T> with(List<T> all, T one) {
        List<T> more = new ArrayList<>(all);
        more.add(one);
        return more;
    }

    /** The same with a field that this form does not name, or without it where the value is null. */
    public Job withOther(String name, Object value) {
        Map<String, Object> changed = new LinkedHashMap<>(other);
        if (value == null) {
            changed.remove(name);
        } else {
            changed.put(name, value);
        }
        return new Job(version, reference, parts, dumpForm, sectorSize, readMaps, zones, passes, chosen, marks, notes, search, proposals,
                media, accepted, approvals, log, changed);
    }

    /** The further disks of the set; entries that name no file are left out. */
    public List<FurtherDisk> furtherDisks() {
        List<FurtherDisk> found = new ArrayList<>();
        if (other.get(FURTHER_DISKS) instanceof List<?> list) {
            for (Object entry : list) {
                if (entry instanceof Map<?, ?> disk && disk.get("file") instanceof String file && !file.isBlank()) {
                    found.add(new FurtherDisk(file, disk.get("readMap") instanceof String map && !map.isBlank() ? map : null));
                }
            }
        }
        return found;
    }

    /** The same with other further disks. */
    public Job withFurtherDisks(List<FurtherDisk> disks) {
        List<Map<String, String>> list = new ArrayList<>();
        for (FurtherDisk disk : disks) {
            Map<String, String> entry = new LinkedHashMap<>();
            entry.put("file", disk.file());
            if (disk.readMap() != null) {
                entry.put("readMap", disk.readMap());
            }
            list.add(entry);
        }
        return withOther(FURTHER_DISKS, list.isEmpty() ? null : list);
    }

    /** The same with a line more in the log. */
    public Job logged(Instant at, String who, String what) {
        List<Entry> more = new ArrayList<>(log);
        more.add(new Entry(at, who, what));
        return new Job(version, reference, parts, dumpForm, sectorSize, readMaps, zones, passes, chosen, marks, notes, search,
                proposals, media, accepted, approvals, more, other);
    }
}
