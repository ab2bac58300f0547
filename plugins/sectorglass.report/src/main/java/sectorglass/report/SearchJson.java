package sectorglass.report;

import java.time.Instant;

import sectorglass.disk.Sighting;
import sectorglass.image.SectorRange;
import sectorglass.recovery.Candidate;
import sectorglass.recovery.ContentLook;
import sectorglass.recovery.FoundReason;
import sectorglass.recovery.FoundVolume;
import sectorglass.recovery.InsideFile;
import sectorglass.recovery.SearchResult;
import sectorglass.recovery.SearchTexts;

/** What {@code search --json} prints. */
public final class SearchJson {
    private final JsonOut to;
    private final SearchTexts texts;
    private final int sectorSize;

    private SearchJson(JsonOut to, SearchTexts texts, int sectorSize) {
        this.to = to;
        this.texts = texts;
        this.sectorSize = sectorSize;
    }

    /**
     * Writes a result as one object.
     *
     * @param look what the disk looks like, or null
     */
    public static void write(SearchResult result, ContentLook look, SearchTexts texts, JsonOut to) {
        new SearchJson(to, texts, result.sectorSize()).result(result, look);
    }

    private void result(SearchResult result, ContentLook look) {
        to.object(() -> {
            to.field("bytes", result.bytes()).field("sectorSize", sectorSize).field("searchedBytes", result.searched())
                    .field("complete", result.complete()).field("unreadSectors", result.unreadSectors());
            to.array("unread", result.unread(), r -> to.list(((SectorRange) r).first(), ((SectorRange) r).count()));
            to.array("volumes", result.volumes(), v -> volume((FoundVolume) v));
            to.array("candidates", result.candidates(), c -> candidate((Candidate) c));
            to.field("leftOut", result.leftOut());
            to.array("remarks", result.remarks(), r -> to.value(texts.of((FoundReason) r)));
            if (look == null) {
                to.field("content", null);
            } else {
                to.object("content", () -> look(look));
            }
        }).line();
    }

    private void volume(FoundVolume volume) {
        to.object(() -> {
            to.field("number", volume.number()).field("kind", volume.kind()).field("firstByte", volume.firstByte())
                    .field("firstLba", Math.floorDiv(volume.firstByte(), (long) sectorSize)).field("bytes", known(volume.bytes()))
                    .field("partitionBytes", known(volume.partitionBytes()))
                    .field("sectors", volume.sectors(sectorSize).map(SectorRange::count).orElse(null)).field("label", volume.label())
                    .field("identity", volume.identity()).field("latestDate", date(volume.latest())).field("state", volume.state().word())
                    .field("proven", volume.proven()).field("confidence", volume.confidence())
                    .field("partition", volume.partition() == 0 ? null : volume.partition());
            file(volume.file());
            to.object("checks", () -> {
                to.field("opened", volume.checks().opened()).field("passed", volume.checks().passed()).field("notChecked", volume.checks().notChecked());
                to.array("failed", volume.checks().failed(), to::value);
            });
            to.array("candidates", volume.candidates(), to::value);
            to.array("votes", volume.votes(), v -> vote((Sighting.Vote) v));
            to.array("against", volume.against(), v -> vote((Sighting.Vote) v));
            to.array("reasons", volume.reasons(), r -> to.value(texts.of((FoundReason) r)));
        });
    }

    private void candidate(Candidate candidate) {
        Sighting sighting = candidate.sighting();
        to.object(() -> {
            to.field("number", candidate.number()).field("kind", sighting.kind()).field("structure", sighting.structure())
                    .field("copy", sighting.copy().word()).field("firstByte", sighting.where().start()).field("lba", candidate.lba(sectorSize))
                    .field("length", sighting.where().length()).field("count", sighting.count()).field("stride", sighting.stride())
                    .field("volume", candidate.volume() == 0 ? null : candidate.volume()).field("state", candidate.state().word())
                    .field("confidence", candidate.confidence()).field("identity", sighting.identity()).field("latestDate", date(sighting.latest()));
            file(candidate.file());
            to.object("facts", () -> sighting.facts().forEach(to::field));
            to.array("reasons", candidate.reasons(), key -> to.value(texts.of("reason." + key, sighting.count())));
            to.array("votes", sighting.votes(), v -> vote((Sighting.Vote) v));
        });
    }

    private void file(InsideFile file) {
        if (file == null) {
            to.field("file", null);
        } else {
            to.object("file", () -> to.field("volumeByte", file.volumeByte()).field("kind", file.kind()).field("path", file.path())
                    .field("deleted", file.deleted()).field("offset", file.offset()));
        }
    }

    private void vote(Sighting.Vote vote) {
        to.object(() -> to.field("by", vote.by()).field("firstByte", vote.firstByte()).field("bytes", known(vote.bytes())).field("weight", vote.weight()));
    }

    private void look(ContentLook look) {
        to.field("windows", look.windows()).field("unreadWindows", look.unreadWindows());
        to.array("strip", look.strip(), p -> {
            ContentLook.Piece piece = (ContentLook.Piece) p;
            to.object(() -> to.field("firstByte", piece.firstByte()).field("bytes", piece.bytes()).field("looks", piece.looks().word())
                    .field("entropy", piece.entropy() < 0 ? null : piece.entropy()));
        });
        to.array("repeats", look.repeats(), r -> {
            ContentLook.Repeat repeat = (ContentLook.Repeat) r;
            to.object(() -> to.field("hex", repeat.hex()).field("text", repeat.text()).field("stride", repeat.stride()).field("regular", repeat.regular())
                    .field("count", repeat.count()).field("firstByte", repeat.firstByte()).field("constantBytes", repeat.constant()));
        });
        to.array("texts", look.texts(), t -> {
            ContentLook.Text text = (ContentLook.Text) t;
            to.object(() -> to.field("firstByte", text.firstByte()).field("text", text.text()).field("encoding", text.encoding()));
        });
    }

    private static Long known(long bytes) {
        return bytes < 0 ? null : (Long) bytes;
    }

    private static String date(Instant instant) {
        return instant == null ? null : instant.toString();
    }
}
