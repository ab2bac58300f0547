package sectorglass.recovery;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

import sectorglass.image.ImageException;
import sectorglass.image.OpenImage;
import sectorglass.image.ReadMap;
import sectorglass.image.ReadStateSources;
import sectorglass.image.ReadStateSources.Kind;
import sectorglass.image.ReadStateSources.Source;
import sectorglass.image.SectorRanges;

/** The passes that a job records: their read maps stand beside the job file, or where their full path says. */
public final class JobPasses {
    /** No pass. */
    public static final PassHistory NONE = new PassHistory(List.of(), ReadMap.EMPTY, SectorRanges.EMPTY, SectorRanges.EMPTY);

    private JobPasses() {
    }

    /**
     * What the passes of a job added.
     *
     * @param sectors of the disk
     * @throws ImageException if a read map cannot be read
     */
    public static PassHistory history(Job job, Path jobFile, long sectors) throws ImageException {
        List<String> names = new ArrayList<>();
        List<ReadMap> maps = new ArrayList<>();
        for (Job.Pass pass : job.passes()) {
            if (pass.readMap() != null) {
                names.add(String.valueOf(pass.name()));
                maps.add(ReadMap.load(jobFile.toAbsolutePath().resolveSibling(pass.readMap())));
            }
        }
        return maps.isEmpty() ? NONE : PassHistory.of(names, maps, sectors);
    }

    /** Read states in which the passes stand in place of all read maps; without passes the states as they are. */
    public static ReadStateSources applied(ReadStateSources states, PassHistory history) {
        return history.passes().isEmpty() ? states
                : states.without(Kind.READ_MAP).with(Kind.READ_MAP, String.join(", ", history.passes().stream().map(PassHistory.Pass::name).toList()), history.map());
    }

    /** Whether the states come from the passes of the job. */
    public static boolean shown(ReadStateSources states, Job job) {
        String names = String.join(", ", job.passes().stream().filter(pass -> pass.readMap() != null).map(pass -> String.valueOf(pass.name())).toList());
        return !names.isEmpty() && states.sources().stream().anyMatch(source -> source.kind() == Kind.READ_MAP && source.name().equals(names));
    }

    /** Whether one of the passes has this read map. */
    public static boolean has(Job job, Path jobFile, Path readMap) {
        Path wanted = readMap.toAbsolutePath().normalize();
        return job.passes().stream().anyMatch(pass -> pass.readMap() != null
                && jobFile.toAbsolutePath().resolveSibling(pass.readMap()).normalize().equals(wanted));
    }

    /**
     * Records a pass. Where it is the first one and the image was opened with a read map, that one is recorded before it: it tells what was read until then.
     *
     * @throws IOException if the read map is none, or the job cannot be written
     */
    public static void add(JobFile job, OpenImage image, Path readMap, Instant at, String who) throws IOException {
        try {
            ReadMap.load(readMap);
        } catch (ImageException e) {
            throw new IOException(e.getMessage(), e);
        }
        List<Path> files = new ArrayList<>();
        if (job.job().passes().isEmpty()) {
            image.states().sources().stream().filter(source -> source.kind() == Kind.READ_MAP).map(Source::name)
                    .filter(name -> !name.isEmpty() && java.nio.file.Files.isReadable(Path.of(name))).map(Path::of).forEach(files::add);
        }
        files.add(readMap);
        job.update(known -> {
            Job changed = known;
            for (Path file : files) {
                String name = named(job.file(), file);
                changed = changed.withPass(new Job.Pass(file.getFileName().toString(), at, name, null)).logged(at, who, "pass " + file.getFileName() + ", read map " + name);
            }
            return changed;
        });
    }

    /** A file as a job names it: by its name alone where it stands beside the job file. */
    static String named(Path jobFile, Path file) {
        Path whole = file.toAbsolutePath().normalize();
        return whole.getParent() != null && whole.getParent().equals(jobFile.toAbsolutePath().normalize().getParent()) ? whole.getFileName().toString() : whole.toString();
    }
}
