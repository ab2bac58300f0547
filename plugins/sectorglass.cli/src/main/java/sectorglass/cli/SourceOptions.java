package sectorglass.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import picocli.CommandLine.Model.CommandSpec;
import sectorglass.disk.CodePage;
import sectorglass.image.DumpForm;
import sectorglass.image.Filler;
import sectorglass.image.FillerFinder;
import sectorglass.image.ImageException;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.image.ReadMap;
import sectorglass.image.ReadState;
import sectorglass.image.ReadStateSources;
import sectorglass.image.SectorRanges;
import sectorglass.image.TextLog;
import sectorglass.recovery.FurtherDisks;
import sectorglass.recovery.Job;
import sectorglass.recovery.JobFile;
import sectorglass.recovery.JobParts;
import sectorglass.recovery.JobPasses;
import sectorglass.recovery.SearchResult;
import sectorglass.recovery.SearchStore;
import sectorglass.recovery.PassHistory;

/** Where an image comes from and what of it was read. */
final class SourceOptions {

    private final Said readMap = Said.value("--read-map", Path.class, "FILE", "Which sectors were read (CSV: first_lba,sectors,state[,head]).");
    private final Said passes = Said.paths("--pass", "FILE", "Read maps of passes over the disk, in order: a sector that any of them read is read,",
            "one that failed in some and was read in none is failed.");
    private final Said log = Said.value("--log", Path.class, "FILE", "A delimited text log that tells what was read; --log-form says how.");
    private final Said logForm = Said.keys("--log-form",
            "How --log is read: delimiter (a character, or blank, tab, comma), skip (lines), comment, start, size, state (columns from 1),",
            "means (length, last, end), base (8, 10, 16), unit (sectors, bytes), read, failed, skipped, unread (the log's words, | between several),",
            "others (state of other words), tolerant (yes).");
    private final Said filler = Said.flag("--filler", "Marks sectors that hold a filler pattern as unread. Without it a filler is only mentioned.");
    private final Said holes = Said.flag("--holes", "Marks sparse holes of the file as unread. A hole may also be a true zero.");
    private final Said sectorSize = Said.value("--sector-size", Long.class, "N", "512, 1024, 2048 or 4096; otherwise found from structures.");
    private final Said codePage = Said.value("--code-page", String.class, "PAGE",
            "Code page of 8.3 names and labels of FAT: 850 (default), 437, 866, 932 and others.");
    private final Said partList = Said.value("--part-list", Path.class, "FILE",
            "Parts of a chunk set (CSV: first_lba,sectors,file); IMAGE is then only a name.");
    private final Said alone = Said.flag("--alone", "IMAGE is the whole image although files with further numbers lie beside it.");
    private final Said dumpForm = Said.keys("--dump-form",
            "How sectors lie in the file, where it is not found or not right: header, trailer, first (image byte of the first payload byte), stored",
            "(bytes per stored sector), offset, length (of the payload in it), swapped (yes).");
    private final Said job = Said.value("--job", Path.class, "FILE",
            "A job file: parts, dump form, sector size and read maps come from it where no option gives them;",
            "what the command did is added to its log.");
    private final Said rawAnyway = Said.flag("--raw-anyway", "Opens a compressed file or virtual disk as the raw bytes it is made of.");
    private final Said deviceAnyway = Said.flag("--device-anyway",
            "Opens a block device. A failing drive is imaged first: every read may be its last.");
    private final Said with = Said.paths("--with", "FILE", "A further disk of the same set (LVM, md); may be given several times.");
    private final Said withReadMap = Said.paths("--with-read-map", "FILE",
            "The read map of a disk given by --with, in the same order; - where there is none.");

    private PassHistory history = JobPasses.NONE;

    private final List<OpenImage> others = new ArrayList<>();

    /** Makes these the options of a command. */
    void addTo(CommandSpec command) {
        for (Said option : List.of(readMap, passes, log, logForm, filler, holes, sectorSize, codePage, partList, alone, dumpForm, job, rawAnyway,
                deviceAnyway, with, withReadMap)) {
            option.addTo(command);
        }
    }

    /** The further disks of the set, opened when first asked for. */
    List<OpenImage> others(Locale locale, Progress progress) throws CommandException {
        if (withReadMap.paths().size() > with.paths().size()) {
            throw new CommandException(Status.USE, "--with-read-map is given " + withReadMap.paths().size() + " times, but --with " + with.paths().size() + " times.");
        }
        if (with.paths().isEmpty() && job.path() != null && others.isEmpty()) {
            FurtherDisks kept = FurtherDisks.open(jobFile().job().furtherDisks(), job.path().toAbsolutePath().getParent(), locale);
            others.addAll(kept.images());
            if (!kept.refused().isEmpty()) {
                throw new CommandException(Status.IMAGE, String.join(" ", kept.refused()));
            }
        }
        while (others.size() < with.paths().size()) {
            int index = others.size();
            Path map = index < withReadMap.paths().size() && !withReadMap.paths().get(index).toString().equals("-") ? withReadMap.paths().get(index) : null;
            try {
                others.add(Images.open(with.paths().get(index), OpenOptions.DEFAULT.withReadMap(map).withDeviceAnyway(deviceAnyway.given()).withLocale(locale)));
            } catch (ImageException e) {
                throw new CommandException(Status.IMAGE, e.getMessage());
            }
        }
        return others;
    }

    /** Closes the further disks. */
    void close() {
        others.forEach(OpenImage::close);
    }

    /** Opens an image as the options say. */
    OpenImage open(Path file, Locale locale, Progress progress) throws ImageException, CommandException {
        long size = sectorSize.number() == null ? 0 : sectorSize.number();
        if (size != 0 && (size < 512 || size > 4096 || Long.bitCount(size) != 1)) {
            throw new CommandException(Status.USE, "--sector-size " + size + " is not 512, 1024, 2048 or 4096.");
        }
        if (codePage.text() != null && !CodePage.choose(codePage.text())) {
            throw new CommandException(Status.USE, "The code page \"" + codePage.text()
                    + "\" is not known. Give a number such as 437, 850, 852, 866 or 932.");
        }
        Job known = job.path() == null ? Job.empty() : jobFile().job();
        OpenOptions options = OpenOptions.DEFAULT.withSectorSize(size == 0 ? known.sectorSize() : (int) size).withReadMap(readMap.path())
                .withDeviceAnyway(deviceAnyway.given()).withLocale(locale).withPartList(partList.path()).withAlone(alone.given()).withRawAnyway(rawAnyway.given()).withDumpForm(form(known));
        if (partList.path() == null && !known.parts().isEmpty()) {
            options = options.withGivenParts(JobParts.given(known, job.path()));
        }
        if (log.path() != null) {
            options = options.withLog(log.path(), reading());
        }
        OpenImage image = Images.open(file, options);
        if (readMap.path() == null) {
            for (String map : known.readMaps()) {
                image = image.withStates(image.states().with(ReadStateSources.Kind.READ_MAP, map, ReadMap.load(beside(map))));
            }
        }
        image = withPasses(image, known);
        if (filler.given()) {
            image = withFiller(image, locale, progress);
        }
        if (holes.given()) {
            SectorRanges found = image.holes().orElse(SectorRanges.EMPTY);
            image = image.withStates(image.states().with(ReadStateSources.Kind.HOLES, "sparse holes", unread(found)));
        }
        return image;
    }

    /** Passes named by options, else those of the job, become one read map. */
    private OpenImage withPasses(OpenImage image, Job known) throws ImageException {
        List<String> names = new ArrayList<>();
        List<ReadMap> maps = new ArrayList<>();
        for (Path pass : passes.paths()) {
            names.add(pass.getFileName().toString());
            maps.add(ReadMap.load(pass));
        }
        if (names.isEmpty() && readMap.path() == null && job.path() != null) {
            history = JobPasses.history(known, job.path(), image.sectors());
            return history.passes().isEmpty() ? image : image.withStates(JobPasses.applied(image.states(), history));
        }
        if (maps.isEmpty()) {
            return image;
        }
        history = PassHistory.of(names, maps, image.sectors());
        return image.withStates(image.states().with(ReadStateSources.Kind.READ_MAP, String.join(", ", names), history.map()));
    }

    /** What the passes added. */
    PassHistory history() {
        return history;
    }

    /** Sectors that failed in two passes or more. */
    SectorRanges failedAgain() {
        return history.failedAgain();
    }

    /** The job's file of head zones, or null. */
    Path jobZones() throws CommandException {
        String file = known().zones();
        return file == null ? null : beside(file);
    }

    /** The job, or an empty one where none is named. */
    Job known() throws CommandException {
        return job.path() == null ? Job.empty() : jobFile().job();
    }

    /** Adds a line to the log of the job, where there is one. */
    void log(String what) throws CommandException {
        if (job.path() != null) {
            try {
                jobFile().update(known -> known.logged(Instant.now().truncatedTo(ChronoUnit.SECONDS), System.getProperty("user.name"), what));
            } catch (IOException e) {
                throw new CommandException(Status.OUTPUT, "The log of the job could not be written: " + e.getMessage());
            }
        }
    }

    /** The job file that was named, or null. */
    Path job() {
        return job.path();
    }

    /** The result of a finished search that the job holds, or null. */
    SearchResult searched() throws CommandException {
        return job.path() == null ? null : new SearchStore(jobFile()).result().orElse(null);
    }

    private JobFile jobFile() throws CommandException {
        try {
            return JobFile.open(job.path());
        } catch (IOException e) {
            throw new CommandException(Status.USE, e.getMessage());
        }
    }

    /** Files are named relative to the job file. */
    private Path beside(String name) {
        return job.path().toAbsolutePath().resolveSibling(name);
    }

    private static OpenImage withFiller(OpenImage image, Locale locale, Progress progress) {
        OpenImage marked = image;
        for (Filler found : FillerFinder.find(image, FillerFinder.SAMPLES, locale, progress)) {
            marked = marked.withStates(marked.states().with(ReadStateSources.Kind.FILLER, found.words(), unread(found.ranges(image, progress))));
        }
        return marked;
    }

    private static ReadMap unread(SectorRanges ranges) {
        return ReadMap.of(ranges, ReadState.UNREAD);
    }

    private DumpForm form(Job known) throws CommandException {
        Map<String, String> left = new HashMap<>(dumpForm.keys().isEmpty() ? known.dumpForm() : dumpForm.keys());
        if (left.isEmpty()) {
            return null;
        }
        int stored = (int) number(left, "stored", 512);
        long offset = number(left, "offset", 0);
        DumpForm form;
        try {
            form = DumpForm.PLAIN.withHeader(number(left, "header", 0)).withTrailer(number(left, "trailer", 0))
                    .withSectors(stored, (int) offset, (int) number(left, "length", stored - offset)).withFirstImageByte(number(left, "first", 0))
                    .withSwapped("yes".equals(left.remove("swapped")));
        } catch (IllegalArgumentException e) {
            throw new CommandException(Status.USE, "--dump-form makes no sense: the payload must lie inside its stored sector (" + e.getMessage() + ").");
        }
        none(left, "--dump-form");
        return form;
    }

    private TextLog reading() throws CommandException {
        Map<String, String> left = new HashMap<>(logForm.keys());
        Map<String, ReadState> words = new HashMap<>();
        for (ReadState state : ReadState.values()) {
            String given = left.remove(state.word());
            for (String word : (given == null ? state.word() : given).split("\\|")) {
                words.put(word, state);
            }
        }
        String others = left.remove("others");
        String delimiter = left.getOrDefault("delimiter", "comma");
        left.remove("delimiter");
        try {
            TextLog.Size means = TextLog.Size.valueOf(left.getOrDefault("means", "length").toUpperCase(Locale.ROOT));
            TextLog.Unit unit = TextLog.Unit.valueOf(left.getOrDefault("unit", "sectors").toUpperCase(Locale.ROOT));
            left.remove("means");
            left.remove("unit");
            String comment = left.getOrDefault("comment", "#");
            left.remove("comment");
            TextLog form = TextLog.DEFAULT
                    .withDelimiter(delimiter.equals("blank") ? " " : delimiter.equals("tab") ? "\t" : delimiter.equals("comma") ? "," : delimiter)
                    .withSkipped((int) number(left, "skip", 0), comment).withWords(words, others == null ? null : ReadState.valueOf(others.toUpperCase(Locale.ROOT)))
                    .withColumns((int) number(left, "start", 1), (int) number(left, "size", 2), means, (int) number(left, "state", 3))
                    .withNumbers((int) number(left, "base", 10), unit).withTolerant("yes".equals(left.remove("tolerant")));
            none(left, "--log-form");
            return form;
        } catch (IllegalArgumentException e) {
            throw new CommandException(Status.USE, "--log-form makes no sense: " + e.getMessage() + ".");
        }
    }

    private static long number(Map<String, String> left, String key, long usual) throws CommandException {
        String text = left.remove(key);
        try {
            return text == null ? usual : Long.decode(text);
        } catch (NumberFormatException e) {
            throw new CommandException(Status.USE, key + "=" + text + " is no number.");
        }
    }

    private static void none(Map<String, String> left, String option) throws CommandException {
        if (!left.isEmpty()) {
            throw new CommandException(Status.USE, option + " has no \"" + left.keySet().iterator().next() + "\"; --help lists its keys.");
        }
    }
}
