package sectorglass.image;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

import sectorglass.image.OpenImage.Troubles;
import sectorglass.image.store.FileHandles;
import sectorglass.image.store.PartSequence;
import sectorglass.image.store.PartSequence.Piece;
import sectorglass.image.store.StoredBytes;
import sectorglass.image.store.StoredFile;

/** Opens the files of an image. */
final class PartOpener {
    private final OpenOptions options;
    private final Texts texts;
    private final Troubles troubles;
    private final List<String> remarks;

    PartOpener(OpenOptions options, Texts texts, Troubles troubles, List<String> remarks) {
        this.options = options;
        this.texts = texts;
        this.troubles = troubles;
        this.remarks = remarks;
    }

    /**
     * What was opened.
     *
     * @param stored the bytes of all parts
     * @param parts where each lies; its size is that of the opened file, also for devices
     */
    record Opened(StoredBytes stored, List<ImagePart> parts) { }

    Opened open(PartFinder.Parts parts) throws ImageException {
        FileHandles handles = new FileHandles();
        List<Piece> pieces = new ArrayList<>();
        List<ImagePart> placed = new ArrayList<>();
        long at = 0;
        try {
            for (ImagePart part : parts.sequence()) {
                if (part.missing()) {
                    pieces.add(new Piece(part.bytes(), null, 0));
                    placed.add(new ImagePart(null, part.number(), at, part.bytes()));
                    at += part.bytes();
                    continue;
                }
                StoredFile file = open(part, handles);
                if (file.length() > 0) {
                    pieces.add(new Piece(file.length(), file, 0));
                    placed.add(new ImagePart(part.file(), part.number(), at, file.length()));
                    at += file.length();
                } else {
                    file.close();
                    if (parts.sequence().size() > 1) {
                        remarks.add(texts.of("parts.empty", part.file()));
                    }
                }
            }
            if (pieces.stream().noneMatch(piece -> piece.file() != null)) {
                ImagePart first = parts.sequence().get(0);
                throw texts.refusal(FileRefusal.isDevicePath(first.file()) ? "file.no-size" : "file.empty", first.file());
            }
            return new Opened(new PartSequence(pieces), placed);
        } catch (ImageException e) {
            new PartSequence(pieces).close();
            throw e;
        }
    }

    private StoredFile open(ImagePart part, FileHandles handles) throws ImageException {
        try {
            return new StoredFile(part.file(), handles,
                    reason -> troubles.add(texts.of("trouble", part.file(), reason)));
        } catch (IOException e) {
            throw FileRefusal.of(texts, part.file(), e);
        }
    }
}
