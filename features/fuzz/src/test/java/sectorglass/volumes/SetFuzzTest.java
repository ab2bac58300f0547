package sectorglass.volumes;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;

import com.code_intelligence.jazzer.api.FuzzedDataProvider;
import com.code_intelligence.jazzer.junit.FuzzTest;

import sectorglass.disk.Level;
import sectorglass.disk.SetMember;
import sectorglass.disk.SetVolume;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeProvider;
import sectorglass.disk.VolumeSite;
import sectorglass.fuzz.ChangedImage;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.verify.Checks;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;

/** Headers of members of sets and texts of volume groups, whatever they say. */
class SetFuzzTest {
    private static final RuleBook BOOK = new RuleBook(List.of(new VolumesRules()), Locale.ENGLISH);
    private static final long MOST_NANOS = 20_000_000_000L;
    private static final int DISK = 256 << 10;
    private static final int AREA = 4096;

    private static void hold(boolean statement, String what) {
        if (!statement) {
            throw new IllegalStateException(what);
        }
    }

    private static int sum(byte[] bytes, int from, int length) {
        return (int) SeededCrc32.of(SeededCrc32.LVM, java.util.Arrays.copyOfRange(bytes, from, from + length));
    }

    @FuzzTest(maxDuration = "6m")
    void textsAreParsedOrRefused(FuzzedDataProvider data) {
        String text = data.consumeBoolean() ? data.consumeRemainingAsString()
                : new String(data.consumeRemainingAsBytes(), StandardCharsets.ISO_8859_1);
        LvmGroup group = LvmGroup.of(text);
        hold(group == null || group.extentBytes() >= 0, "extents of a negative size");
    }

    @FuzzTest(maxDuration = "6m")
    void aGroupOfAnyTextIsPutTogetherOrRefused(FuzzedDataProvider data) {
        byte[] disk = new byte[DISK];
        ByteBuffer le = ByteBuffer.wrap(disk).order(ByteOrder.LITTLE_ENDIAN);
        le.put(512, "LABELONE".getBytes(StandardCharsets.US_ASCII)).putLong(520, 1).putInt(532, 32);
        le.put(536, "LVM2 001".getBytes(StandardCharsets.US_ASCII)).put(544, "1".repeat(32).getBytes(StandardCharsets.US_ASCII));
        le.putLong(576, DISK).putLong(584, 131072).putLong(616, AREA).putLong(624, 65536);
        le.putInt(528, sum(disk, 532, 492));
        String volume = data.consumeString(400);
        String text = "vg {\nid = \"g\"\nseqno = 3\nextent_size = " + data.consumeInt(-1, 300) + "\nphysical_volumes {\npv0 {\nid = \"111111-1111-1111-1111-1111-1111-111111\"\n"
                + "pe_start = " + data.consumeInt(-1, 600) + "\npe_count = 8\n}\n}\nlogical_volumes {\na {\nid = \"a\"\nstatus = [\"VISIBLE\"]\nsegment_count = "
                + data.consumeInt(0, 3) + "\nsegment1 {\nstart_extent = " + data.consumeInt(0, 2) + "\nextent_count = " + data.consumeInt(-1, 9) + "\ntype = \""
                + data.pickValue(new String[] {"striped", "raid1", "raid5_ls", "raid6", "mirror", "error", "thin"}) + "\"\nstripe_size = "
                + data.consumeInt(0, 16) + "\nstripes = [\n\"pv0\", " + data.consumeInt(-1, 9) + data.pickValue(new String[] {"", ", \"a\", 0", ", \"b\", 1"})
                + "\n]\n}\n}\n" + volume + "}\n}\n";
        byte[] bytes = (text + "\0").getBytes(StandardCharsets.UTF_8);
        int length = Math.min(bytes.length, 60_000);
        le.put(AREA + 512, bytes, 0, length);
        le.put(AREA + 4, new byte[] {0x20, 0x4C, 0x56, 0x4D, 0x32, 0x20, 0x78, 0x5B, 0x35, 0x41, 0x25, 0x72, 0x30, 0x4E, 0x2A, 0x3E});
        le.putInt(AREA + 20, 1).putLong(AREA + 24, AREA).putLong(AREA + 32, 65536).putLong(AREA + 40, 512).putLong(AREA + 48, length);
        le.putInt(AREA + 56, sum(disk, AREA + 512, length));
        le.putInt(AREA, sum(disk, AREA + 4, 508));
        use(new LvmVolumes(), new ChangedImage(disk, new int[] {512, 512}, new int[] {AREA, 64}).changed(data));
    }

    @FuzzTest(maxDuration = "10m")
    void aSetOfChangedHeadersIsPutTogetherOrRefused(FuzzedDataProvider data) {
        int disks = data.consumeInt(1, 6);
        int level = data.pickValue(new int[] {-4, -1, 0, 1, 4, 5, 6, 10});
        byte[] disk = new byte[DISK];
        ByteBuffer sb = ByteBuffer.wrap(disk).order(ByteOrder.LITTLE_ENDIAN);
        sb.putInt(AREA, 0xA92B4EFC).putInt(AREA + 4, 1).putInt(AREA + 72, level).putInt(AREA + 76, data.consumeInt(0, 6)).putLong(AREA + 80, 128)
                .putInt(AREA + 88, data.pickValue(new int[] {0, 1, 8, 16, 64})).putInt(AREA + 92, disks).putLong(AREA + 128, 64).putLong(AREA + 136, 128)
                .putLong(AREA + 144, 8).putLong(AREA + 200, 7).putInt(AREA + 220, 8);
        for (int i = 0; i < 8; i++) {
            sb.putShort(AREA + 256 + 2 * i, (short) i);
        }
        List<Volume> members = new java.util.ArrayList<>();
        for (int i = 0; i < disks; i++) {
            byte[] own = disk.clone();
            ByteBuffer.wrap(own).order(ByteOrder.LITTLE_ENDIAN).putInt(AREA + 160, i);
            SectorImage image = new ChangedImage(own, new int[] {AREA, 272}, new int[] {AREA + 8, 4}, new int[] {AREA + 72, 24}, new int[] {AREA + 128, 96})
                    .changed(data);
            new MdVolumes().recognise(new VolumeSite(image, image.all(), null)).ifPresent(claim -> members.add(new MdVolumes().open(claim)));
        }
        set(members);
    }

    private static void use(VolumeProvider provider, SectorImage image) {
        provider.recognise(new VolumeSite(image, image.all(), null)).ifPresent(claim -> set(List.of(provider.open(claim))));
    }

    private static void set(List<Volume> members) {
        if (members.isEmpty()) {
            return;
        }
        long begun = System.nanoTime();
        SetMember speaks = members.get(0).capability(SetMember.class).orElseThrow();
        List<Volume> own = members.stream().filter(v -> v.capability(SetMember.class).orElseThrow().set().equals(speaks.set())).toList();
        Checks checks = new Checks();
        for (Volume member : own) {
            member.info();
            member.check(Level.FULL, checks);
        }
        for (SetVolume volume : speaks.assemble(own)) {
            hold(volume.range().count() > 0 && volume.range().first() >= 0, "a volume of no sectors");
            byte[] some = new byte[4096];
            long sectors = volume.range().count();
            for (long lba : new long[] {0, sectors / 2, sectors - 1}) {
                volume.image().read((volume.range().first() + lba) * 512, some, 0, 512);
                volume.image().state(volume.range().first() + lba);
            }
        }
        speaks.remarks(own);
        speaks.check(own, Level.FULL, checks, new Progress() {
            @Override
            public boolean cancelled() {
                return System.nanoTime() - begun > MOST_NANOS / 2;
            }

            @Override
            public void at(String what, long done, long total) {
                // nobody watches
            }
        });
        Findings.of(checks, BOOK, 512);
        hold(System.nanoTime() - begun < MOST_NANOS, "a small set took longer than 20 seconds");
    }
}
