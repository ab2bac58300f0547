package sectorglass.workbench.recovery.search;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import sectorglass.disk.Sighting;
import sectorglass.image.SafeText;
import sectorglass.recovery.Candidate;
import sectorglass.recovery.ContentLook;
import sectorglass.recovery.FoundReason;
import sectorglass.recovery.FoundVolume;
import sectorglass.recovery.SearchResult;
import sectorglass.recovery.SearchTexts;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.recovery.Words;

/** Words what was found. */
final class FoundRows {
    private static final int MOST = 2000;

    private final SearchTexts texts;

    FoundRows(SearchTexts texts) {
        this.texts = texts;
    }

    List<FoundRow> volumes(SearchResult result) {
        List<FoundRow> all = new ArrayList<>();
        for (FoundVolume volume : result.volumes()) {
            all.add(volume(volume, result));
        }
        List<FoundRow> others = result.candidates().stream().filter(c -> c.volume() == 0).limit(MOST).map(c -> candidate(c, result.sectorSize())).toList();
        if (!others.isEmpty()) {
            all.add(new FoundRow(cells(Words.of("search.others", others.size())), -1, 0, Words.of("search.others.tip"), others));
        }
        return all;
    }

    private FoundRow volume(FoundVolume volume, SearchResult result) {
        int size = result.sectorSize();
        List<FoundRow> children = volume.candidates().stream().limit(MOST).flatMap(n -> result.candidate(n).stream())
                .map(c -> candidate(c, size)).toList();
        StringBuilder why = new StringBuilder();
        for (FoundReason reason : volume.reasons()) {
            line(why, texts.of(reason));
        }
        if (volume.identity() != null) {
            line(why, Words.of("search.identity", SafeText.of(volume.identity())));
        }
        if (volume.latest() != null) {
            line(why, Words.of("search.latest", volume.latest().toString().replace('T', ' ').replaceAll("\\.\\d+|Z", "")));
        }
        for (String failed : volume.checks().failed()) {
            line(why, Words.of("search.failed", failed));
        }
        return new FoundRow(cells(volume.kind(), Numbers.grouped(Math.floorDiv(volume.firstByte(), (long) size)),
                volume.sectors(size).map(r -> Numbers.grouped(r.count())).orElse("?"),
                volume.partitionBytes() > 0 ? Numbers.size(volume.partitionBytes()) : "?", volume.confidence() + " %", texts.state(volume.state()),
                volume.label() == null ? "" : SafeText.of(volume.label())), volume.firstByte(), size, why.toString(), children);
    }

    private FoundRow candidate(Candidate candidate, int sectorSize) {
        Sighting sighting = candidate.sighting();
        StringBuilder why = new StringBuilder();
        for (String key : candidate.reasons()) {
            line(why, texts.of("reason." + key, sighting.count()));
        }
        if (candidate.file() != null) {
            line(why, texts.of(FoundReason.of("in-file", candidate.file().path(), candidate.file().kind(), candidate.file().volumeByte())));
        }
        for (Map.Entry<String, Object> fact : sighting.facts().entrySet()) {
            line(why, fact.getKey() + " = " + (fact.getValue() instanceof Number number ? Numbers.grouped(number.longValue())
                    : SafeText.of(String.valueOf(fact.getValue()))));
        }
        String copy = sighting.copy() == Sighting.Copy.RECORDS ? "" : ", " + texts.of("copy." + sighting.copy().word());
        String what = candidate.volume() == 0 ? sighting.kind() + " " + texts.structure(sighting.structure()) : texts.structure(sighting.structure());
        return new FoundRow(cells(what + copy, Numbers.grouped(candidate.lba(sectorSize)), sighting.count() > 1 ? Numbers.grouped(sighting.count()) + " ×" : "",
                sighting.count() > 1 ? Words.of("search.stride", Numbers.grouped(sighting.stride())) : "", candidate.confidence() + " %",
                texts.state(candidate.state()), candidate.file() == null ? "" : candidate.file().path()), sighting.where().start(),
                sighting.where().length(), why.toString(), List.of());
    }

    /** Stretches that look alike, repeating signatures, text. */
    List<FoundRow> content(ContentLook look, int sectorSize) {
        List<FoundRow> stretches = new ArrayList<>();
        List<ContentLook.Piece> strip = look.strip();
        for (int i = 0; i < strip.size();) {
            int end = i;
            while (end < strip.size() && strip.get(end).looks() == strip.get(i).looks()) {
                end++;
            }
            long from = strip.get(i).firstByte();
            long bytes = strip.get(end - 1).firstByte() + strip.get(end - 1).bytes() - from;
            String looks = texts.of("looks." + strip.get(i).looks().word());
            stretches.add(new FoundRow(cells(looks, Numbers.grouped(from / sectorSize), Numbers.grouped(bytes / sectorSize), Numbers.size(bytes)), from,
                    sectorSize, Words.of("search.samples", end - i), List.of()));
            i = end;
        }
        List<FoundRow> repeats = look.repeats().stream().map(r -> new FoundRow(cells(r.hex() + "   " + r.text(), Numbers.grouped(r.firstByte() / sectorSize),
                Numbers.grouped(r.count()) + " ×", Words.of("search.stride", Numbers.grouped(r.stride())), r.regular() + " %"), r.firstByte(), 64,
                texts.of("content.repeat", r.hex(), r.text(), r.count(), r.stride(), r.regular(), r.firstByte(), r.constant()), List.of())).toList();
        List<FoundRow> pieces = look.texts().stream().map(t -> new FoundRow(cells(SafeText.of(t.text()), Numbers.grouped(t.firstByte() / sectorSize)),
                t.firstByte(), t.text().length() * (t.encoding().equals("ascii") ? 1L : 2L),
                SafeText.of(t.text()) + "\n" + t.encoding().toUpperCase(Locale.ROOT), List.of())).toList();
        List<FoundRow> all = new ArrayList<>();
        all.add(new FoundRow(cells(Words.of("search.stretches", stretches.size())), -1, 0, Words.of("search.stretches.tip"), stretches));
        all.add(new FoundRow(cells(Words.of("search.repeats", repeats.size())), -1, 0, Words.of("search.repeats.tip"), repeats));
        all.add(new FoundRow(cells(Words.of("search.texts", pieces.size())), -1, 0, Words.of("search.texts.tip"), pieces));
        return all;
    }

    private static void line(StringBuilder text, String more) {
        text.append(text.length() == 0 ? "" : "\n").append(more);
    }

    private static String[] cells(String... given) {
        String[] all = new String[7];
        for (int i = 0; i < all.length; i++) {
            all[i] = i < given.length ? given[i] : "";
        }
        return all;
    }
}
