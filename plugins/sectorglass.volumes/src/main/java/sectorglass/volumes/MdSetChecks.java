package sectorglass.volumes;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

import sectorglass.disk.VolumeFacts;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.verify.Checks;
import sectorglass.verify.Outcome;
import sectorglass.verify.Severity;

/** Judges whether the disks of an md set agree with each other. Sources: md(4); Linux kernel include/uapi/linux/raid/md_p.h. */
final class MdSetChecks {
    private final MdSet set;
    private final Checks out;
    /** Speaks for the set: the first member on the surveyed image. */
    private final MdMember here;

    MdSetChecks(MdSet set, Checks out) {
        this.set = set;
        this.out = out;
        this.here = set.members().get(0);
    }

    /** What their superblocks say. */
    void superblocks() {
        if (set.members().size() < 2) {
            return;
        }
        long newest = set.first().events();
        long oldest = set.members().stream().mapToLong(MdMember::events).min().orElse(newest);
        boolean old = here.md().old();
        MdMember last = set.members().stream().filter(m -> m.events() == oldest).findFirst().orElse(here);
        MdMember shown = last.md().site().image() == here.md().site().image() ? last : here;
        out.in(header(shown)).check("md.events-equal", field(shown, old ? 156 : 200, old ? 4 : 8), () -> {
            Outcome outcome = Outcome.test(newest == oldest, oldest, newest).with("disk", name(last));
            return oldest == newest - 1 ? outcome.severity(Severity.COSMETIC) : outcome;
        });
        out.in(header(here)).check("md.members-agree", field(here, old ? 28 : 72, 4), () -> {
            for (MdMember member : set.members()) {
                String problem = set.leftBehind(member) ? null : problem(member);
                if (problem != null) {
                    return Outcome.failed(problem, shape(set.first())).with("disk", name(member));
                }
            }
            return Outcome.passed();
        });
    }

    private String problem(MdMember member) {
        if (!Objects.equals(shape(member), shape(set.first()))) {
            return shape(member);
        }
        int place = member.place();
        MdMember other = place < 0 || place >= set.disks().size() ? null : set.disks().get(place);
        return other != null && other != member && !set.leftBehind(other) ? "disk " + place + " as " + name(other) + " does" : null;
    }

    private static String shape(MdMember member) {
        return VolumeFacts.known(() -> "level " + member.md().level() + ", " + member.md().disks() + " disks, layout " + member.layout() + ", chunks of "
                + member.chunk() + " bytes");
    }

    private static String name(MdMember member) {
        return member.md().site().image().name();
    }

    private static ByteRange header(MdMember member) {
        return field(member, 0, 512);
    }

    private static ByteRange field(MdMember member, int at, int length) {
        return new ByteRange(member.md().site().firstByte() + member.md().at() + at, length);
    }

    /** Compares what the disks of a mirror hold, or the parity with the data; needs all disks that take part. */
    void data(Progress progress) {
        int level = set.level();
        boolean mirror = level == 1;
        List<MdMember> use = mirror ? set.members().stream().filter(set.disks()::contains).toList() : set.disks();
        if (use.size() < 2 || use.contains(null) || level != 1 && level != 4 && level != 5 && level != 6) {
            return;
        }
        List<SectorImage> data = new ArrayList<>();
        for (MdMember member : use) {
            data.add(member.data(set.sectorSize()));
        }
        long chunk = set.first().chunk();
        StripeLayout.Parity parity = mirror ? null : set.parity();
        if (data.contains(null) || level == 6 && (parity == null || use.size() < 4 || chunk < 512 || chunk % set.sectorSize() != 0)) {
            return;
        }
        MdMember spoken = use.contains(here) ? here : use.get(0);
        long start = spoken.md().site().firstByte() + spoken.dataStart();
        out.check("md.copies-agree", new ByteRange(start, data.get(0).bytes()), () -> {
            Disagreement found = level == 6 ? new DoubleParityCheck(data, chunk, parity, progress).compare(set.sectorSize())
                    : new MdAgreement(data, !mirror, progress).compare(set.sectorSize());
            return found.outcome(start, set.sectorSize(), use.stream().map(MdSetChecks::place).toList()).with("disks", use.size());
        });
    }

    private static String place(MdMember member) {
        return member.place() + " (" + name(member) + ")";
    }
}
