package sectorglass.image;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

import sectorglass.image.Landmarks.Landmark;

/**
 * Finds the dump form from landmarks near the beginning: two of them whose distance is not that of a plain image tell how many bytes
 * are stored per sector and where sector 0 begins; landmarks that appear only with the bytes of each word exchanged tell that, too.
 */
final class DumpFormFinder {
    /** Stored bytes looked at: the first mebibyte, where partitions begin today, and a little more. */
    static final int REACH = (1 << 20) + (1 << 17);
    /** Stored bytes looked at first: where they show a plain disk, no more are read. */
    private static final int NEAR = 1 << 13;
    /** Weight from which a form is taken without asking; two landmarks at least must agree. */
    static final int SURE = 40;
    private static final int MOST_HITS = 64;

    private final List<Landmark> landmarks;
    private final Texts texts;

    DumpFormFinder(List<Landmark> landmarks, Texts texts) {
        this.landmarks = landmarks;
        this.texts = texts;
    }

    static DumpFormFinder ofProviders(Texts texts) {
        return new DumpFormFinder(Providers.all(Landmarks.class).stream().flatMap(p -> p.landmarks().stream()).toList(), texts);
    }

    private record Hit(Landmark landmark, int at) { }

    /** The forms that something speaks for, the best first; the plain form is among them where it is one of them. */
    List<DumpForm.Clue> find(SectorImage stored) {
        if (landmarks.isEmpty()) {
            return List.of();
        }
        int length = (int) Math.min(NEAR, stored.bytes());
        byte[] bytes = new byte[length];
        stored.read(0, bytes, 0, length);
        List<Hit> near = agreeing(DumpForm.PLAIN, hits(bytes));
        if (near.size() > 1 && weight(near) >= SURE) {
            return List.of(new DumpForm.Clue(DumpForm.PLAIN, weight(near), reason(DumpForm.PLAIN, near)));
        }
        length = (int) Math.min(REACH, stored.bytes());
        bytes = new byte[length];
        stored.read(0, bytes, 0, length);
        Map<DumpForm, List<Hit>> found = new LinkedHashMap<>();
        byte[] swapped = bytes.clone();
        for (int i = 0; i + 1 < length; i += 2) {
            swapped[i] = bytes[i + 1];
            swapped[i + 1] = bytes[i];
        }
        collect(bytes, false, found);
        collect(swapped, true, found);
        List<DumpForm.Clue> clues = new ArrayList<>();
        found.forEach((form, hits) -> clues.add(new DumpForm.Clue(form, weight(hits), reason(form, hits))));
        clues.sort(Comparator.comparingInt(DumpForm.Clue::weight).reversed().thenComparing(clue -> !clue.form().plain()));
        return clues;
    }

    /** Whether a clue is sure enough to be taken where the best is not the plain form. */
    static boolean sure(List<DumpForm.Clue> clues) {
        if (clues.isEmpty() || clues.get(0).form().plain() || clues.get(0).weight() < SURE) {
            return false;
        }
        int plain = clues.stream().filter(clue -> clue.form().plain()).mapToInt(DumpForm.Clue::weight).max().orElse(0);
        return clues.get(0).weight() >= 2 * plain;
    }

    private void collect(byte[] bytes, boolean exchanged, Map<DumpForm, List<Hit>> found) {
        List<Hit> hits = hits(bytes);
        List<DumpForm> forms = new ArrayList<>();
        forms.add(DumpForm.PLAIN.withSwapped(exchanged));
        for (Hit a : hits) {
            for (Hit b : hits) {
                DumpForm form = a.landmark.lba() < 0 || b.landmark.lba() <= a.landmark.lba() ? null : through(a, b, exchanged);
                if (form != null && !forms.contains(form) && forms.size() < MOST_HITS) {
                    forms.add(form);
                }
            }
        }
        for (DumpForm form : forms) {
            List<Hit> agreeing = agreeing(form, hits);
            if (agreeing.stream().map(Hit::landmark).distinct().count() >= (form.plain() ? 1 : 2)) {
                found.put(form, agreeing);
            }
        }
    }

    /** One pass over the bytes, since it delays the opening of every image: a table of first bytes sends most places away. */
    private List<Hit> hits(byte[] bytes) {
        boolean[] first = new boolean[256];
        landmarks.forEach(landmark -> first[landmark.bytes()[0] & 0xFF] = true);
        int[] counts = new int[landmarks.size()];
        List<Hit> hits = new ArrayList<>();
        for (int at = 0; at < bytes.length; at++) {
            if (first[bytes[at] & 0xFF]) {
                hitsAt(bytes, at, counts, hits);
            }
        }
        return hits;
    }

    private void hitsAt(byte[] bytes, int at, int[] counts, List<Hit> hits) {
        for (int i = 0; i < counts.length; i++) {
            Landmark landmark = landmarks.get(i);
            byte[] wanted = landmark.bytes();
            if (at >= landmark.offset() && counts[i] < MOST_HITS && at + wanted.length <= bytes.length
                    && Arrays.equals(bytes, at, at + wanted.length, wanted, 0, wanted.length)) {
                hits.add(new Hit(landmark, at));
                counts[i]++;
            }
        }
    }

    /** The form in which both stand at home, or null. */
    private static DumpForm through(Hit a, Hit b, boolean exchanged) {
        long distance = (long) b.at - b.landmark.offset() - (a.at - a.landmark.offset());
        long sectors = b.landmark.lba() - a.landmark.lba();
        if (distance <= 0 || distance % sectors != 0) {
            return null;
        }
        long stored = distance / sectors;
        long start = a.at - a.landmark.offset() - a.landmark.lba() * stored;
        if (stored < 512 || stored > 4096 + 1024 || start < 0) {
            return null;
        }
        int payload = Math.min(4096, Integer.highestOneBit((int) stored));
        boolean inSector = start > 0 && start <= stored - payload;
        int offset = inSector ? (int) start : 0;
        DumpForm form = DumpForm.PLAIN.withHeader(inSector ? 0 : start).withSwapped(exchanged);
        return payload == stored ? form : form.withSectors((int) stored, offset, payload);
    }

    /** The landmarks that stand at home in the form; where nothing lies between sectors, at the sector size for which they weigh most. */
    private static List<Hit> agreeing(DumpForm form, List<Hit> hits) {
        if (!form.contiguous()) {
            return agreeing(form, hits, form.storedSector());
        }
        List<Hit> best = agreeing(form, hits, 512);
        for (int size = 1024; size <= 4096; size *= 2) {
            List<Hit> larger = agreeing(form, hits, size);
            // without the first sector, something at byte 1024 is no proof of a sector size
            if (weight(larger) > weight(best) && larger.stream().anyMatch(hit -> hit.landmark.lba() == 0)) {
                best = larger;
            }
        }
        return best;
    }

    private static List<Hit> agreeing(DumpForm form, List<Hit> hits, int sector) {
        List<Hit> agreeing = new ArrayList<>();
        for (Hit hit : hits) {
            long start = hit.at - hit.landmark.offset() - form.header() - form.payloadOffset();
            boolean home = hit.landmark.lba() >= 0 ? start == hit.landmark.lba() * sector : start >= 0 && start % sector == 0;
            if (home && agreeing.stream().noneMatch(other -> other.landmark == hit.landmark)) {
                agreeing.add(hit);
            }
        }
        return agreeing;
    }

    private static int weight(List<Hit> hits) {
        return hits.stream().mapToInt(hit -> hit.landmark.weight()).sum();
    }

    private String reason(DumpForm form, List<Hit> hits) {
        StringBuilder seen = new StringBuilder();
        for (Hit hit : hits) {
            seen.append(seen.length() == 0 ? "" : "; ").append(texts.of("form.seen", hit.landmark.structure(), hit.at));
        }
        return texts.of("form.reason", words(form, texts), seen);
    }

    /** A form in words. */
    static String words(DumpForm form, Texts texts) {
        List<String> words = new ArrayList<>();
        if (form.plain()) {
            words.add(texts.of("form.plain"));
        }
        if (form.header() > 0) {
            words.add(texts.of("form.header", form.header()));
        }
        if (form.trailer() > 0) {
            words.add(texts.of("form.trailer", form.trailer()));
        }
        if (!form.contiguous()) {
            words.add(texts.of("form.sectors", form.storedSector(), form.payloadLength(), form.payloadOffset()));
        }
        if (form.swapped()) {
            words.add(texts.of("form.swapped"));
        }
        if (form.firstImageByte() > 0) {
            words.add(texts.of("form.first", form.firstImageByte()));
        }
        return String.join(", ", words);
    }
}
