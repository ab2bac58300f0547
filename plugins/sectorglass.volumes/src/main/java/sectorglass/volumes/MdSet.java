package sectorglass.volumes;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.disk.SetVolume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeSite;
import sectorglass.image.AssembledImage.Piece;
import sectorglass.image.AssembledImage.Source;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.AssembledImage;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.verify.Checks;

/**
 * An md set of which some or all disks are in hand. Disks with fewer events than the newest were left behind and are not used. Sources: md(4);
 * Linux kernel include/uapi/linux/raid/md_p.h.
 */
final class MdSet {
    /** More disks than a set can have. */
    private static final int MOST = 1920;
    private static final long LEAST_CHUNK = 512;

    private final List<MdMember> members;
    private final MdMember first;
    private final int level;
    private final MdMember[] disks;
    private final List<String> remarks = new ArrayList<>();

    MdSet(List<MdMember> members) {
        this.members = members;
        this.first = members.get(0);
        Integer known = VolumeFacts.known(() -> first.md().level());
        Long count = VolumeFacts.known(() -> first.md().disks());
        this.level = known == null ? Integer.MIN_VALUE : known;
        this.disks = new MdMember[count == null ? 0 : (int) Math.max(0, Math.min(MOST, count))];
        long newest = members.stream().mapToLong(MdMember::events).max().orElse(0);
        for (MdMember member : members) {
            int place = member.place();
            if (member.events() < newest) {
                remarks.add("A disk of the set " + name() + " (" + member.md().site().image().name() + ") was left behind: its superblock counts "
                        + member.events() + " events, the newest " + newest + ". Its data is older and is not used.");
            } else if (place >= 0 && place < disks.length && disks[place] == null) {
                disks[place] = member;
            }
        }
        long missing = Arrays.stream(disks).filter(d -> d == null).count();
        if (missing > 0) {
            remarks.add("The set " + name() + " (" + MdMember.words(level) + ") has " + disks.length + " disks; "
                    + (disks.length - missing) + " of them are in hand. Missing: " + missingPlaces() + ".");
        }
    }

    private String missingPlaces() {
        List<String> places = new ArrayList<>();
        for (int i = 0; i < disks.length && places.size() < 16; i++) {
            if (disks[i] == null) {
                places.add("disk " + i);
            }
        }
        return String.join(", ", places);
    }

    private String name() {
        return String.valueOf(VolumeFacts.known(() -> first.md().uuid()));
    }

    List<String> remarks() {
        List<String> all = new ArrayList<>(remarks);
        if (volumes().isEmpty()) {
            all.add("The set " + name() + " (" + MdMember.words(level) + ", " + disks.length + " disks) cannot be put together from what is in hand.");
        }
        return all;
    }

    List<SetVolume> volumes() {
        SetVolume made = VolumeFacts.known(() -> level == 1 ? mirror() : level == -1 ? linear() : level == 0 || level == 4 || level == 5 || level == 10
                ? striped() : null);
        return made == null ? List.of() : List.of(made);
    }

    /** The disks of a mirror in hand; those of the surveyed image first. */
    private List<MdMember> inUse() {
        return members.stream().filter(m -> Arrays.asList(disks).contains(m)).toList();
    }

    /** Compares what the disks of a mirror hold, or the parity with the data; needs all disks that take part. */
    void check(Checks out, Progress progress) {
        boolean parity = level == 4 || level == 5;
        List<MdMember> use = parity ? Arrays.asList(disks) : inUse();
        if (use.size() < 2 || use.contains(null) || !parity && level != 1) {
            return;
        }
        List<SectorImage> data = use.stream().map(m -> m.data(sectorSize())).toList();
        if (data.contains(null)) {
            return;
        }
        MdMember spoken = use.contains(first) ? first : use.get(0);
        long start = spoken.md().site().firstByte() + spoken.dataStart();
        out.check("md.copies-agree", new ByteRange(start, data.get(0).bytes()), () -> new MdAgreement(data, parity, progress)
                .outcome(start, sectorSize()).with("disks", use.size()));
    }

    private SetVolume mirror() {
        List<MdMember> use = inUse();
        if (use.isEmpty()) {
            return null;
        }
        MdMember main = use.get(0);
        VolumeSite site = main.md().site();
        int size = site.image().sectorSize();
        long start = site.firstByte() + main.dataStart();
        long bytes = main.dataBytes();
        if (bytes <= 0 || start < 0 || start % size != 0) {
            return null;
        }
        bytes -= bytes % size;
        SectorRange range = new SectorRange(start / size, bytes / size);
        if (use.size() == 1 || start + bytes > site.image().bytes()) {
            return volume(site.image(), range, true);
        }
        List<Source> sources = new ArrayList<>();
        for (MdMember member : use) {
            sources.add(new Source(member.md().site().image(), member.md().site().firstByte() + member.dataStart()));
        }
        List<Piece> pieces = new ArrayList<>();
        if (start > 0) {
            pieces.add(new Piece(0, start, List.of(new Source(site.image(), 0))));
        }
        pieces.add(new Piece(start, bytes, sources));
        long end = start + bytes;
        if (end < site.image().bytes()) {
            pieces.add(new Piece(end, site.image().bytes() - end, List.of(new Source(site.image(), end))));
        }
        return volume(AssembledImage.of(site.image().name(), size, pieces), range, true);
    }

    private SetVolume linear() {
        List<Piece> row = new ArrayList<>();
        long at = 0;
        for (MdMember disk : disks) {
            if (disk == null) {
                break; // how long it was is not known, so nothing behind it has an address
            }
            SectorImage data = disk.data(sectorSize());
            if (data == null) {
                break;
            }
            row.add(new Piece(at, data.bytes(), List.of(new Source(data, 0))));
            at += data.bytes();
        }
        return row.isEmpty() ? null : apart(AssembledImage.of(name(), sectorSize(), row));
    }

    private SetVolume striped() {
        List<SectorImage> areas = new ArrayList<>();
        long least = Long.MAX_VALUE;
        for (MdMember disk : disks) {
            SectorImage data = disk == null ? null : disk.data(sectorSize());
            areas.add(data);
            least = data == null ? least : Math.min(least, data.bytes());
        }
        long chunk = first.chunk();
        if (chunk < LEAST_CHUNK || chunk % sectorSize() != 0 || least == Long.MAX_VALUE || areas.isEmpty()) {
            return null;
        }
        if (level == 10) {
            int near = (int) (first.layout() & 0xFF);
            boolean plain = (first.layout() >> 8 & 0xFF) == 1 && near >= 1 && near <= areas.size();
            return plain ? apart(StripeLayout.near(name(), sectorSize(), areas, least, chunk, near)) : null;
        }
        StripeLayout.Parity parity = level == 0 ? StripeLayout.Parity.NONE : level == 4 ? StripeLayout.Parity.LAST
                : StripeLayout.Parity.of(first.layout());
        return parity == null || parity != StripeLayout.Parity.NONE && areas.size() < 2 ? null
                : apart(StripeLayout.of(name(), sectorSize(), areas, least, chunk, parity));
    }

    private int sectorSize() {
        return first.md().site().image().sectorSize();
    }

    private SetVolume apart(AssembledImage image) {
        return image.bytes() < image.sectorSize() ? null : volume(image, image.all(), false);
    }

    private SetVolume volume(SectorImage image, SectorRange range, boolean own) {
        String label = first.md().old() ? null : VolumeFacts.text(first.md().window(), 32, 32, java.nio.charset.StandardCharsets.UTF_8);
        return new SetVolume(label, "set of " + disks.length + " disks, " + MdMember.words(level), VolumeFacts.known(() -> first.md().uuid()), image,
                range, own);
    }
}
