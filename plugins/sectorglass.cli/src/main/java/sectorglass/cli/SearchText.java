package sectorglass.cli;

import java.io.PrintStream;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.Sighting;
import sectorglass.image.SafeText;
import sectorglass.recovery.Candidate;
import sectorglass.recovery.ContentLook;
import sectorglass.recovery.FoundReason;
import sectorglass.recovery.FoundVolume;
import sectorglass.recovery.SearchResult;
import sectorglass.recovery.SearchTexts;

/** A search result as text. */
final class SearchText {
    private static final int FEW = 20;
    private static final int STRIP = 64;

    private final PrintStream out;
    private final SearchTexts texts;
    private final SearchResult result;

    SearchText(PrintStream out, SearchTexts texts, SearchResult result) {
        this.out = out;
        this.texts = texts;
        this.result = result;
    }

    void volumes() {
        if (result.volumes().isEmpty()) {
            out.println(texts.of(result.unreadSectors() > 0 ? "none.unread" : "none"));
        } else {
            Table table = new Table("rlrrrrlll").row("", texts.of("column.kind"), texts.of("column.first"), texts.of("column.sectors"),
                    texts.of("column.size"), texts.of("column.confidence"), texts.of("column.state"), texts.of("column.identity"), texts.of("column.label"));
            for (FoundVolume volume : result.volumes()) {
                table.row(volume.number(), volume.kind(), lba(volume.firstByte()),
                        volume.sectors(result.sectorSize()).map(r -> Numbers.grouped(r.count())).orElse("?"),
                        volume.partitionBytes() > 0 ? Numbers.size(volume.partitionBytes()) : "?", volume.confidence() + " %",
                        texts.state(volume.state()), volume.identity() == null ? "" : SafeText.of(volume.identity()),
                        volume.label() == null ? "" : SafeText.of(volume.label()));
            }
            table.print(out, "");
            for (FoundVolume volume : result.volumes()) {
                out.println();
                out.println(volume.number() + "  " + volume.kind() + ":");
                for (FoundReason reason : volume.reasons()) {
                    out.println("   " + texts.of(reason));
                }
            }
        }
        result.remarks().forEach(remark -> out.println("! " + texts.of(remark)));
    }

    void candidates(boolean all) {
        List<Candidate> shown = result.candidates().stream().filter(c -> all || c.volume() == 0).toList();
        if (shown.isEmpty()) {
            return;
        }
        out.println();
        out.println(texts.of(all ? "structures.all" : "structures.other"));
        Table table = new Table("rlllrlll");
        for (Candidate candidate : all ? shown : shown.subList(0, Math.min(FEW, shown.size()))) {
            Sighting sighting = candidate.sighting();
            table.row(candidate.number(), sighting.kind(), texts.structure(sighting.structure()), texts.of("copy." + sighting.copy().word()),
                    "LBA " + Numbers.grouped(candidate.lba(result.sectorSize())), candidate.confidence() + " %", texts.state(candidate.state()),
                    sighting.count() > 1 ? texts.of("row", sighting.count(), sighting.stride())
                            : candidate.file() != null ? candidate.file().path() : "");
        }
        table.print(out, "");
        if (!all && shown.size() > FEW) {
            out.println(texts.of("structures.more", shown.size() - FEW));
        }
    }

    void look(ContentLook look) {
        out.println();
        out.println(texts.of("content"));
        int step = Math.max(1, look.strip().size() / STRIP);
        StringBuilder line = new StringBuilder("  ");
        for (int i = 0; i < look.strip().size(); i += step) {
            line.append(letter(look.strip().get(i).looks()));
        }
        out.println(line);
        out.println("  " + texts.of("content.legend"));
        for (ContentLook.Repeat repeat : look.repeats()) {
            out.println("  " + texts.of("content.repeat", repeat.hex(), repeat.text(), repeat.count(), repeat.stride(), repeat.regular(),
                    repeat.firstByte(), repeat.constant()));
        }
        for (ContentLook.Text text : look.texts().subList(0, Math.min(FEW, look.texts().size()))) {
            out.println("  " + texts.of("content.text", text.firstByte(), text.text()));
        }
    }

    private static char letter(ContentLook.Looks looks) {
        return switch (looks) {
            case UNREAD -> '?';
            case ZERO -> '.';
            case PATTERN -> '=';
            case TEXT -> 't';
            case RANDOM -> '#';
            case MIXED -> 'm';
        };
    }

    private String lba(long firstByte) {
        long size = result.sectorSize();
        return firstByte % size == 0 ? Numbers.grouped(firstByte / size)
                : String.format(Locale.ROOT, "%s + %d B", Numbers.grouped(Math.floorDiv(firstByte, size)), Math.floorMod(firstByte, size));
    }
}
