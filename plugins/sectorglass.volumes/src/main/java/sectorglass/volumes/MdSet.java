package sectorglass.volumes;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

import sectorglass.disk.SetVolume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeSite;
import sectorglass.image.AssembledImage.Piece;
import sectorglass.image.AssembledImage.Source;
import sectorglass.image.ByteRange;
import sectorglass.image.AssembledImage;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;

/**
 * An md set of which some or all disks are in hand. Disks with fewer events than the newest were left behind; they are
 * used only where the set cannot be put together without them, the freshest first. Sources: md(4); mdadm(8), --assemble and --force;
 * Linux kernel include/uapi/linux/raid/md_p.h.
 */
final class MdSet {
    /** More disks than a set can have. */
    private static final int MOST = 1920;
    private static final long LEAST_CHUNK = 512;
    /** The second parity has 255 different factors. */
    private static final int MOST_DOUBLE = 257;

    private final List<MdMember> members;
    private final MdMember first;
    private final int level;
    private final MdMember[] disks;
    private final List<MdMember> forced = new ArrayList<>();
    private final List<String> remarks = new ArrayList<>();

    MdSet(List<MdMember> members) {
        this.members = members;
        // a superblock whose checksum does not hold may count any number
        this.first = members.stream().max(Comparator.comparing(MdMember::sumHolds).thenComparing(MdMember::events)).orElseThrow();
        Integer known = VolumeFacts.known(() -> first.md().level());
        Long count = VolumeFacts.known(() -> first.md().disks());
        this.level = known == null ? Integer.MIN_VALUE : known;
        this.disks = new MdMember[count == null ? 0 : (int) Math.max(0, Math.min(MOST, count))];
        List<MdMember> behind = new ArrayList<>();
        for (MdMember member : members) {
            if (leftBehind(member)) {
                behind.add(member);
            } else {
                take(member);
            }
        }
        behind.sort(Comparator.comparingLong(MdMember::events).reversed());
        for (MdMember member : behind) {
            boolean wanted = filled() < needed() && take(member);
            if (wanted) {
                forced.add(member);
                remarks.add("A disk of the set " + name() + " (" + image(member) + ") that was left behind is used all the same, since the set cannot be"
                        + " put together without it: its superblock counts " + member.events() + " events, the newest " + first.events() + ".");
            } else {
                remarks.add("A disk of the set " + name() + " (" + image(member) + ") was left behind: its superblock counts "
                        + member.events() + " events, the newest " + first.events() + ". Its data is older and is not used.");
            }
        }
        for (MdMember member : members) {
            partly(member);
        }
        long missing = disks.length - filled();
        if (missing > 0) {
            remarks.add("The set " + name() + " (" + MdMember.words(level) + ") has " + disks.length + " disks; "
                    + (disks.length - missing) + " of them are in hand. Missing: " + missingPlaces() + ".");
        }
    }

    /** One event less may be counted where the last superblocks were being written when the power failed; such a disk is taken, as mdadm does. */
    boolean leftBehind(MdMember member) {
        return member.events() < first.events() - 1;
    }

    private boolean take(MdMember member) {
        int place = member.place();
        if (place < 0 || place >= disks.length) {
            return false;
        }
        MdMember other = disks[place];
        if (other == null || !forced.contains(other) && !leftBehind(member) && member.events() > other.events()) {
            disks[place] = member;
            return true;
        }
        return false;
    }

    private void partly(MdMember member) {
        if (!Arrays.asList(disks).contains(member)) {
            return;
        }
        long rebuilt = member.rebuiltBytes();
        if (rebuilt < member.dataBytes()) {
            remarks.add("A disk of the set " + name() + " (" + image(member) + ") was being rebuilt: only the first " + rebuilt / 512 + " sectors of its "
                    + member.dataBytes() / 512 + " sectors of data are used.");
        }
        long bad = member.badRuns().stream().mapToLong(ByteRange::length).sum() / 512;
        if (bad > 0) {
            remarks.add("The set " + name() + " noted " + bad + " bad sectors on a disk (" + image(member) + "); what stands there is not used.");
        }
    }

    private static String image(MdMember member) {
        return member.md().site().image().name();
    }

    private int filled() {
        return (int) Arrays.stream(disks).filter(d -> d != null).count();
    }

    /** Disks without which the set cannot be put together. */
    private int needed() {
        return switch (level) {
            case 1 -> Math.min(1, disks.length);
            case 4, 5 -> disks.length - 1;
            case 6 -> disks.length - 2;
            default -> disks.length;
        };
    }

    List<MdMember> members() {
        return members;
    }

    /** The one with the newest superblock. */
    MdMember first() {
        return first;
    }

    int level() {
        return level;
    }

    /** Those in use, by place; null where one is missing. */
    List<MdMember> disks() {
        return Arrays.asList(disks);
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
        if (reshaping()) {
            all.add("The set " + name() + " was being brought into another shape; its data stands in two layouts and is not put together.");
        } else if (volumes().isEmpty()) {
            all.add("The set " + name() + " (" + MdMember.words(level) + ", " + disks.length + " disks) cannot be put together from what is in hand.");
        }
        return all;
    }

    List<SetVolume> volumes() {
        SetVolume made = reshaping() ? null : VolumeFacts.known(() -> switch (level) {
            case 1 -> mirror();
            case -1 -> linear();
            case 0, 4, 5, 6, 10 -> striped();
            default -> null;
        });
        return made == null ? List.of() : List.of(made);
    }

    private boolean reshaping() {
        return level != 1 && members.stream().anyMatch(m -> !leftBehind(m) && m.reshaping());
    }

    /** The disks of a mirror in hand; those of the surveyed image first. */
    private List<MdMember> inUse() {
        return members.stream().filter(m -> Arrays.asList(disks).contains(m)).toList();
    }

    /** Disks of a mirror whose data is whole, or all where none is. */
    private List<MdMember> wholeOnes() {
        List<MdMember> whole = inUse().stream().filter(MdMember::whole).toList();
        return whole.isEmpty() ? inUse() : whole;
    }

    private SetVolume mirror() {
        List<MdMember> use = wholeOnes();
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
        if (use.size() == 1 && main.whole() || start + bytes > site.image().bytes()) {
            return volume(site.image(), range, true);
        }
        List<Source> sources = new ArrayList<>();
        for (MdMember member : use) {
            SectorImage data = member.whole() ? null : member.data(size);
            sources.add(data == null ? new Source(member.md().site().image(), member.md().site().firstByte() + member.dataStart())
                    : new Source(data, 0));
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

    /** The data of the disks by place; null where one is missing. */
    List<SectorImage> areas() {
        List<SectorImage> areas = new ArrayList<>();
        for (MdMember disk : disks) {
            areas.add(disk == null ? null : disk.data(sectorSize()));
        }
        return areas;
    }

    /** Where parity of the set stands, or null where its layout is not known here. */
    StripeLayout.Parity parity() {
        return level == 0 ? StripeLayout.Parity.NONE : level == 4 ? StripeLayout.Parity.LAST : StripeLayout.Parity.of(first.layout());
    }

    private SetVolume striped() {
        List<SectorImage> areas = areas();
        long least = Long.MAX_VALUE;
        for (SectorImage data : areas) {
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
        StripeLayout.Parity parity = parity();
        int fewest = level == 6 ? 4 : parity == StripeLayout.Parity.NONE ? 1 : 2;
        if (parity == null || areas.size() < fewest) {
            return null;
        }
        if (level != 6) {
            return apart(StripeLayout.of(name(), sectorSize(), areas, least, chunk, parity));
        }
        return areas.size() > MOST_DOUBLE ? null : apart(StripeLayout.doubleParity(name(), sectorSize(), areas, least, chunk, parity));
    }

    int sectorSize() {
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
