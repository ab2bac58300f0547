package sectorglass.image;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.image.OpenImage.Troubles;
import sectorglass.image.store.StoredBytes;

/** Opens raw images: one file, or the parts of a chunk set. Files are opened read only; nothing is ever written to them or locked. */
public final class Images {
    private static final int TAIL = 512;

    private Images() {
    }

    /** Opens an image with everything found out. */
    public static OpenImage open(Path path) throws ImageException {
        return open(path, OpenOptions.DEFAULT);
    }

    /**
     * Opens an image.
     *
     * @param path a raw file, or a part of a chunk set
     * @throws ImageException where it cannot be opened, as one or two sentences for a person
     */
    public static OpenImage open(Path path, OpenOptions options) throws ImageException {
        Texts texts = new Texts(options.locale());
        List<String> remarks = new ArrayList<>();
        Troubles troubles = new Troubles();
        PartFinder.Parts parts = new PartFinder(options, texts, remarks).find(path);
        PartOpener.Opened opened = new PartOpener(options, texts, troubles, remarks).open(parts);
        StoredBytes stored = opened.stored();
        try {
            return finish(new OpenImage(path, opened.parts(), stored, troubles, null, new SectorSizeChoice(512, "", List.of(), List.of()),
                    List.of()), options, texts, remarks, stored);
        } catch (ImageException | RuntimeException e) {
            stored.close();
            throw e;
        }
    }

    private static OpenImage finish(OpenImage plain, OpenOptions options, Texts texts, List<String> remarks, StoredBytes stored)
            throws ImageException {
        refuseContainer(plain, options, texts, stored);
        if (options.deviceAnyway() && FileRefusal.isDevicePath(plain.path())) {
            remarks.add(texts.of("file.device.opened", plain.path()));
        }
        ReadMapFile.Loaded loaded = options.readMap() == null ? null : ReadMapFile.read(options.readMap(), options.locale());
        ReadMap map = loaded == null ? null : loaded.map();
        SectorSizeChoice size = size(plain, options, map, texts);
        if (!size.against().isEmpty()) {
            size.against().forEach(clue -> remarks.add(texts.of("size.against", clue.sectorSize(), clue.reason(), size.sectorSize())));
        }
        long cut = plain.bytes() % size.sectorSize();
        if (cut != 0) {
            remarks.add(texts.of("image.cut-off", plain.bytes() / size.sectorSize(), cut, size.sectorSize()));
        }
        if (loaded != null) {
            remarks.addAll(loaded.remarks());
            MapFit.check(options.readMap(), loaded, plain.bytes() / size.sectorSize(), texts, remarks);
        }
        SectorRanges missing = missing(plain.parts(), size.sectorSize());
        if (!missing.isEmpty()) {
            long sectors = plain.bytes() / size.sectorSize();
            ReadMap below = map != null ? map : ReadMap.of(SectorRanges.of(0, sectors), ReadState.READ);
            map = ReadMap.of(missing, ReadState.UNREAD).combine(below, StateCollector::careful);
        }
        return plain.with(map, size, remarks);
    }

    private static SectorSizeChoice size(OpenImage plain, OpenOptions options, ReadMap map, Texts texts) {
        List<Integer> fits = map == null ? List.of() : SizeFinder.fits(map, plain.bytes());
        int provisional = options.sectorSize() != 0 ? options.sectorSize() : fits.size() == 1 ? fits.get(0) : 512;
        OpenImage image = plain.with(map, new SectorSizeChoice(provisional, "", List.of(), List.of()), List.of());
        return options.sectorSize() != 0 ? SizeFinder.byHand(provisional, image, texts) : SizeFinder.find(image, map, texts);
    }

    /** The sectors that missing parts hold a byte of. */
    private static SectorRanges missing(List<ImagePart> parts, int sectorSize) {
        SectorRanges.Builder builder = new SectorRanges.Builder();
        for (ImagePart part : parts) {
            if (part.missing() && part.bytes() > 0) {
                SectorRange run = new ByteRange(part.start(), part.bytes()).sectors(sectorSize);
                builder.add(run.first(), run.count());
            }
        }
        return builder.build();
    }

    private static void refuseContainer(OpenImage image, OpenOptions options, Texts texts, StoredBytes stored) throws ImageException {
        if (options.rawAnyway()) {
            return;
        }
        byte[] head = new byte[(int) Math.min(ContainerKind.HEAD, image.bytes())];
        byte[] tail = new byte[(int) Math.min(TAIL, image.bytes())];
        boolean[] whole = {true};
        stored.read(0, head, 0, head.length, (from, count, state) -> whole[0] = false);
        stored.read(image.bytes() - tail.length, tail, 0, tail.length, (from, count, state) -> Arrays.fill(tail, (byte) 0));
        ContainerKind kind = whole[0] ? ContainerKind.of(head, tail).orElse(null) : null;
        if (kind != null) {
            throw texts.refusal(kind.offset() < 0 ? "container.tail" : "container.head", image.path(), kind.name(),
                    kind.offset() < 0 ? image.bytes() + kind.offset() : kind.offset(), kind.words());
        }
    }

    /** For tests of sentences. */
    static ImageException refusal(Path file, IOException e, OpenOptions options) {
        return FileRefusal.of(new Texts(options.locale()), file, e);
    }
}
