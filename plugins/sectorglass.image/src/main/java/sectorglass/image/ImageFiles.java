package sectorglass.image;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import sectorglass.image.OpenImage.Troubles;
import sectorglass.image.PartFinder.Planned;
import sectorglass.image.store.FileHandles;
import sectorglass.image.store.PartSequence;
import sectorglass.image.store.PartSequence.Piece;
import sectorglass.image.store.StoredFile;

/** The open files of an image in order. Immutable: {@link #grown} gives another one over the same files. */
final class ImageFiles {
    private final List<Member> members;
    private final List<ImagePart> parts;
    private final PartSequence sequence;
    private final FileHandles handles;

    /** A part with its file, which is null where the part is missing. */
    private record Member(Planned plan, StoredFile file) {

        long bytes() {
            return plan.fixed() || file == null ? plan.bytes() : file.length();
        }
    }

    private ImageFiles(List<Member> members, FileHandles handles) {
        this.members = members;
        this.handles = handles;
        List<ImagePart> placed = new ArrayList<>();
        List<Piece> pieces = new ArrayList<>();
        long at = 0;
        for (Member member : members) {
            placed.add(new ImagePart(member.plan.file(), member.plan.number(), at, member.bytes()));
            pieces.add(new Piece(member.bytes(), member.file, 0));
            at += member.bytes();
        }
        this.parts = List.copyOf(placed);
        this.sequence = new PartSequence(pieces);
    }

    static ImageFiles open(List<Planned> plans, Texts texts, Troubles troubles, List<String> remarks) throws ImageException {
        FileHandles handles = new FileHandles();
        List<Member> members = new ArrayList<>();
        try {
            for (Planned plan : plans) {
                StoredFile file = plan.file() == null ? null : open(plan, handles, texts, troubles);
                if (file != null && file.length() == 0 && !plan.fixed()) {
                    file.close();
                    if (plans.size() > 1) {
                        remarks.add(texts.of("parts.empty", plan.file()));
                    }
                } else {
                    members.add(new Member(plan, file));
                }
            }
            if (members.stream().noneMatch(member -> member.file != null)) {
                Planned first = plans.get(0);
                throw first.file() == null ? texts.refusal("parts.none")
                        : texts.refusal(FileRefusal.isDevicePath(first.file()) ? "file.no-size" : "file.empty", first.file());
            }
            return new ImageFiles(List.copyOf(members), handles);
        } catch (ImageException e) {
            close(members);
            throw e;
        }
    }

    private static StoredFile open(Planned plan, FileHandles handles, Texts texts, Troubles troubles) throws ImageException {
        try {
            return new StoredFile(plan.file(), handles, reason -> troubles.add(texts.of("trouble", plan.file(), reason)));
        } catch (IOException e) {
            throw FileRefusal.of(texts, plan.file(), e);
        }
    }

    List<ImagePart> parts() {
        return parts;
    }

    PartSequence sequence() {
        return sequence;
    }

    /** Number of files open at the moment. */
    int openNow() {
        return handles.count();
    }

    /** The number of the last part, or -1. */
    long lastNumber() {
        return members.get(members.size() - 1).plan.number();
    }

    /** Where a stored byte lies; nothing where its part is missing or ends before it. */
    Optional<FilePlace> place(long stored) {
        if (stored < 0 || stored >= sequence.length()) {
            return Optional.empty();
        }
        int index = sequence.pieceAt(stored);
        Member member = members.get(index);
        long within = stored - sequence.start(index);
        return member.file == null || within >= member.file.length() ? Optional.empty()
                : Optional.of(new FilePlace(member.file.path(), within));
    }

    /**
     * The files as long as they are now, with parts that were added since; this object where nothing grew.
     *
     * @param added parts behind the last one
     */
    ImageFiles grown(List<Planned> added, Texts texts, Troubles troubles) {
        List<Member> now = new ArrayList<>(members);
        long before = sequence.length();
        long after = 0;
        for (Planned plan : added) {
            try {
                StoredFile file = plan.file() == null ? null : open(plan, handles, texts, troubles);
                now.add(new Member(plan, file));
            } catch (ImageException e) {
                troubles.add(e.getMessage());
                break;
            }
        }
        for (Member member : now) {
            if (member.file != null) {
                member.file.grow();
            }
            after += member.bytes();
        }
        return after == before && now.size() == members.size() ? this : new ImageFiles(List.copyOf(now), handles);
    }

    void close() {
        close(members);
    }

    private static void close(List<Member> members) {
        for (Member member : members) {
            if (member.file != null) {
                member.file.close();
            }
        }
    }
}
