package sectorglass.image;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

import sectorglass.image.OpenImage.Now;
import sectorglass.image.OpenImage.Troubles;
import sectorglass.image.ReadStateSources.Kind;

/** One opening of an image: files, container check, dump form, read states, sector size, in this order. */
final class Opening {
    private static final int TAIL = 512;
    private static final SectorSizeChoice UNDECIDED = new SectorSizeChoice(512, "", List.of(), List.of());
    private static final DumpForm.Clue PLAIN = new DumpForm.Clue(DumpForm.PLAIN, 0, "");

    private final Path path;
    private final OpenOptions options;
    private final Texts texts;
    private final Troubles troubles = new Troubles();
    private final List<String> remarks = new ArrayList<>();
    private List<DumpForm.Clue> formClues = List.of();
    private FileStamp mapStamp;
    private FileStamp logStamp;

    Opening(Path path, OpenOptions options) {
        this.path = path;
        this.options = options;
        this.texts = new Texts(options.locale());
    }

    OpenImage open() throws ImageException {
        ImageFiles files = ImageFiles.open(new PartFinder(options, texts, remarks).find(path), texts, troubles, remarks);
        try {
            return open(files);
        } catch (ImageException | RuntimeException e) {
            files.close();
            throw e;
        }
    }

    private OpenImage open(ImageFiles files) throws ImageException {
        OpenImage stored = image(files, PLAIN, ReadStateSources.NONE, UNDECIDED);
        if (options.dumpForm() == null && !options.rawAnyway()) {
            Optional<String> container = container(stored, path, texts);
            if (container.isPresent()) {
                throw new ImageException(container.get());
            }
        }
        if (FileRefusal.isDevicePath(path)) {
            remarks.add(texts.of("file.device.opened", path));
        }
        DumpForm.Clue form = form(stored);
        long bytes = form.form().imageBytes(stored.bytes());
        if (bytes == form.form().firstImageByte()) {
            throw texts.refusal("form.nothing", path, stored.bytes());
        }
        ReadMapFile.Loaded map = options.readMap() == null ? null : ReadMapFile.read(options.readMap(), options.locale());
        SectorSizeChoice size = size(files, form, map == null ? null : map.map());
        size.against().forEach(clue -> remarks.add(texts.of("size.against", clue.sectorSize(), clue.reason(), size.sectorSize())));
        if (bytes % size.sectorSize() != 0) {
            remarks.add(texts.of("image.cut-off", bytes / size.sectorSize(), bytes % size.sectorSize(), size.sectorSize()));
        }
        mapStamp = FileStamp.of(options.readMap());
        logStamp = FileStamp.of(options.logFile());
        ReadStateSources sources = log(map(ReadStateSources.NONE, map, bytes, size.sectorSize()), size.sectorSize());
        sources.conflicts().forEach(conflict -> remarks.add(texts.of("states.conflict", conflict.counts().name(),
                conflict.yields().name(), conflict.sectors().count(), conflict.sectors().run(0).first())));
        return image(files, form, sources, size);
    }

    private OpenImage image(ImageFiles files, DumpForm.Clue form, ReadStateSources sources, SectorSizeChoice size) {
        return new OpenImage(path, Now.of(files, form.form(), sources, size.sectorSize()), troubles, size, form, formClues, remarks,
                options.readMap() != null || options.logFile() != null ? null
                        : ReadMap.beside(path).map(map -> texts.of("map.beside", map.getFileName())).orElse(null), this::look);
    }

    private ReadStateSources map(ReadStateSources sources, ReadMapFile.Loaded map, long bytes, int sectorSize) throws ImageException {
        if (map == null) {
            return sources;
        }
        remarks.addAll(map.remarks());
        MapFit.check(options.readMap(), map, bytes / sectorSize, texts, remarks);
        return sources.with(Kind.READ_MAP, options.readMap().toString(), map.map());
    }

    private ReadStateSources log(ReadStateSources sources, int sectorSize) throws ImageException {
        if (options.logFile() == null) {
            return sources;
        }
        TextLog.Loaded log = options.log().load(options.logFile(), sectorSize, options.locale(), Progress.NONE);
        remarks.addAll(log.remarks());
        return sources.with(Kind.TEXT_LOG, options.logFile().toString(), log.map());
    }

    private DumpForm.Clue form(OpenImage stored) {
        if (options.dumpForm() != null) {
            return new DumpForm.Clue(options.dumpForm(), 100,
                    texts.of("form.by-hand", DumpFormFinder.words(options.dumpForm(), texts)));
        }
        List<DumpForm.Clue> clues = new ArrayList<>(DumpFormFinder.ofProviders(texts).find(stored));
        DumpForm.Clue taken = DumpFormFinder.sure(clues) ? clues.get(0) : PLAIN;
        List<DumpForm.Clue> offered = new ArrayList<>();
        for (DumpFormClue provider : Providers.all(DumpFormClue.class)) {
            try {
                offered.addAll(provider.look(stored));
            } catch (UnreadException e) {
                continue; // what it needs was not read: it says nothing
            }
        }
        formClues = Stream.concat(clues.stream(), offered.stream()).toList();
        if (taken != PLAIN) {
            remarks.add(texts.of("form.taken", taken.reason()));
            return taken;
        }
        Optional<DumpForm.Clue> proven = offered.stream().filter(DumpFormClue::proven).findFirst();
        if (proven.isPresent()) {
            remarks.add(texts.of("form.trailing", proven.get().form().trailer(), proven.get().reason()));
            return proven.get();
        }
        Map<DumpForm, List<String>> reasons = new LinkedHashMap<>();
        offered.forEach(clue -> reasons.computeIfAbsent(clue.form(), k -> new ArrayList<>()).add(clue.reason()));
        reasons.forEach((form, why) -> remarks.add(texts.of("form.offered", DumpFormFinder.words(form, texts), String.join("; ", why), form.keys())));
        return taken;
    }

    private SectorSizeChoice size(ImageFiles files, DumpForm.Clue form, ReadMap map) {
        long bytes = form.form().imageBytes(files.sequence().length());
        List<Integer> fits = map == null ? List.of() : SizeFinder.fits(map, bytes);
        int provisional = options.sectorSize() != 0 ? options.sectorSize() : fits.size() == 1 ? fits.get(0) : 512;
        ReadStateSources states = map == null ? ReadStateSources.NONE : ReadStateSources.NONE.with(Kind.READ_MAP, "", map);
        OpenImage image = image(files, form, states, new SectorSizeChoice(provisional, "", List.of(), List.of()));
        return options.sectorSize() != 0 ? SizeFinder.byHand(provisional, image, texts) : SizeFinder.find(image, map, texts);
    }

    /** The sentence about a container that the stored bytes look like. */
    static Optional<String> container(SectorImage stored, Path path, Texts texts) {
        Window head = stored.window(0, (int) Math.min(ContainerKind.HEAD, stored.bytes()));
        int length = (int) Math.min(TAIL, stored.bytes());
        Window tail = stored.window(stored.bytes() - length, length);
        if (!head.isRead(0, head.length())) {
            return Optional.empty();
        }
        byte[] end = tail.isRead(0, length) ? tail.bytes(0, length) : new byte[0];
        return ContainerKind.of(head.bytes(0, head.length()), end).map(kind -> {
            boolean atEnd = kind.offset() < 0;
            return texts.of(atEnd ? "container.tail" : "container.head", path, kind.name(),
                    atEnd ? stored.bytes() + kind.offset() : (long) kind.offset(), kind.words());
        });
    }

    /** What the files and the read map are now. */
    private Now look(OpenImage image, Now before) {
        List<String> added = new ArrayList<>();
        ImageFiles files = before.files().grown(new PartFinder(options, texts, added).after(path, before.files().lastNumber()), texts, troubles);
        ReadStateSources sources = before.sources();
        try {
            FileStamp map = FileStamp.of(options.readMap());
            if (map != null && !map.equals(mapStamp)) {
                sources = anew(sources, Kind.READ_MAP, options.readMap(), ReadMapFile.read(options.readMap(), options.locale()).map());
                mapStamp = map;
            }
            FileStamp log = FileStamp.of(options.logFile());
            if (log != null && !log.equals(logStamp)) {
                sources = anew(sources, Kind.TEXT_LOG, options.logFile(),
                        options.log().again(options.logFile(), image.sectorSize(), options.locale(), Progress.NONE).map());
                logStamp = log;
            }
        } catch (ImageException e) {
            troubles.add(e.getMessage());
        }
        return files == before.files() && sources == before.sources() ? before
                : Now.of(files, image.dumpForm().form(), sources, image.sectorSize());
    }

    /** The map of a file in place of its former one; where that was taken out meanwhile, in place of all of its kind. */
    private static ReadStateSources anew(ReadStateSources sources, Kind kind, Path file, ReadMap map) {
        ReadStateSources changed = sources.replaced(kind, file.toString(), map);
        return changed != sources ? changed : sources.without(kind).with(kind, file.toString(), map);
    }
}
