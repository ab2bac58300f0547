package sectorglass.image;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Where the read states of an image come from, and which source counts where several speak. Precedence, the strongest first:
 *
 * <ol>
 * <li>what the files lack (missing parts, bytes before the first): never read;
 * <li>read maps;
 * <li>text logs;
 * <li>fillers that a person accepted;
 * <li>sparse holes that a person accepted.
 * </ol>
 *
 * <p>A source counts for the sectors that no stronger one mentions; of two of one kind the later given is the stronger. Sectors that nobody
 * mentions are unread where there is a read map or a text log, and read where there is none. Sources that contradict each other
 * are told by {@link #conflicts}.
 */
public final class ReadStateSources {
    /** No source: all bytes of the files count as read. */
    public static final ReadStateSources NONE = new ReadStateSources(List.of());

    /** The kinds, the strongest first. */
    public enum Kind {
        /** What the files lack. */
        FILES,
        /** A read map. */
        READ_MAP,
        /** An imported text log. */
        TEXT_LOG,
        /** An accepted filler. */
        FILLER,
        /** Accepted holes. */
        HOLES
    }

    /**
     * A source.
     *
     * @param kind decides its precedence
     * @param name for people: a file name, a filler in words
     * @param map what it says
     */
    public record Source(Kind kind, String name, ReadMap map) { }

    /**
     * Two sources that give the same sectors different states.
     *
     * @param counts the one that counts
     * @param yields the other one
     * @param sectors where
     */
    public record Conflict(Source counts, Source yields, SectorRanges sectors) { }

    /** The strongest first. */
    private final List<Source> sources;

    private ReadStateSources(List<Source> sources) {
        this.sources = List.copyOf(sources);
    }

    /** These sources and one more. */
    public ReadStateSources with(Kind kind, String name, ReadMap map) {
        List<Source> more = new ArrayList<>();
        more.add(new Source(kind, name, map));
        more.addAll(sources);
        more.sort(Comparator.comparing(Source::kind));
        return new ReadStateSources(more);
    }

    /** These sources without those of a kind. */
    public ReadStateSources without(Kind kind) {
        return new ReadStateSources(sources.stream().filter(source -> source.kind != kind).toList());
    }

    /** These sources with another map in place of that of the source of this kind and name; the same object where there is none. */
    public ReadStateSources replaced(Kind kind, String name, ReadMap map) {
        if (sources.stream().noneMatch(source -> source.kind == kind && source.name.equals(name))) {
            return this;
        }
        return new ReadStateSources(sources.stream().map(source -> source.kind == kind && source.name.equals(name) ? new Source(kind, name, map) : source).toList());
    }

    /** The sources, the strongest first. */
    public List<Source> sources() {
        return sources;
    }

    /** Whether sectors that nobody mentions count as read. */
    public boolean silenceMeansRead() {
        return sources.stream().noneMatch(source -> source.kind == Kind.READ_MAP || source.kind == Kind.TEXT_LOG);
    }

    /**
     * The states of all sectors, or null where all of them are read.
     *
     * @param sectors number of sectors of the image
     */
    public ReadMap combined(long sectors) {
        if (sources.isEmpty()) {
            return null;
        }
        ReadMap all = silenceMeansRead() ? ReadMap.of(SectorRanges.of(0, sectors), ReadState.READ) : ReadMap.EMPTY;
        for (int i = sources.size() - 1; i >= 0; i--) {
            all = all.runs() == 0 ? sources.get(i).map : sources.get(i).map.over(all);
        }
        return all;
    }

    /** The source that decides the state of a sector, or null where nobody mentions it. */
    public Source deciding(long lba) {
        return sources.stream().filter(source -> source.map.mentions(lba)).findFirst().orElse(null);
    }

    /** Pairs of sources that contradict each other; what the files lack contradicts nobody. */
    public List<Conflict> conflicts() {
        List<Conflict> conflicts = new ArrayList<>();
        for (int i = 0; i < sources.size(); i++) {
            for (int k = i + 1; k < sources.size(); k++) {
                Source strong = sources.get(i);
                Source weak = sources.get(k);
                SectorRanges different = strong.kind == Kind.FILES ? SectorRanges.EMPTY : differing(strong.map, weak.map);
                if (!different.isEmpty()) {
                    conflicts.add(new Conflict(strong, weak, different));
                }
            }
        }
        return conflicts;
    }

    private static SectorRanges differing(ReadMap a, ReadMap b) {
        SectorRanges.Builder builder = new SectorRanges.Builder();
        a.combine(b, (mine, other) -> mine == ReadMap.SILENT || other == ReadMap.SILENT || mine == other ? ReadMap.SILENT : (byte) 1)
                .visit((first, end, state, head) -> builder.add(first, end - first));
        return builder.build();
    }
}
