package sectorglass.disk;

import java.util.List;
import java.util.Optional;

import sectorglass.image.ByteRange;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;
import sectorglass.verify.Checks;

/** Images, maps and volumes made up for tests. */
final class Fake {
    private Fake() {
    }

    /** An image of bytes in memory, the rest zero. */
    record Image(byte[] head, long bytes, SectorRanges unread) implements SectorImage {
        @Override
        public String name() {
            return "fake";
        }

        @Override
        public int sectorSize() {
            return 512;
        }

        @Override
        public SectorStates read(long firstByte, byte[] into, int offset, int length) {
            for (int i = 0; i < length; i++) {
                into[offset + i] = firstByte + i < head.length ? head[(int) (firstByte + i)] : 0;
            }
            SectorStates states = SectorStates.allRead(512, firstByte, length).with(unread, ReadState.UNREAD);
            return states.with(SectorRanges.of(sectors(), 1L << 40), ReadState.UNREAD);
        }

        @Override
        public ReadState state(long lba) {
            return lba >= sectors() || unread.contains(lba) ? ReadState.UNREAD : ReadState.READ;
        }

        @Override
        public SectorRanges inState(ReadState state, SectorRange within) {
            SectorRanges missing = unread.union(SectorRanges.of(sectors(), 1L << 40)).intersect(within);
            return state == ReadState.UNREAD ? missing : state == ReadState.READ ? SectorRanges.of(within).minus(missing) : SectorRanges.EMPTY;
        }
    }

    static Image image(long sectors) {
        return new Image(new byte[0], sectors * 512, SectorRanges.EMPTY);
    }

    static MapEntry entry(int slot, long first, long count, MapEntry.Use use) {
        return new MapEntry(slot, new SectorRange(first, count), "83", null, null, null, false, use, new ByteRange(446 + 16L * slot, 16), List.of());
    }

    static PartitionMap map(String kind, long lba, PartitionMap.Copy copy, boolean leftover, MapEntry... entries) {
        return new PartitionMap(kind, lba, kind + "-id", copy, leftover, null, List.of(entries), List.of(new ByteRange(lba * 512, 512)), List.of());
    }

    /** Hands out maps as they are. */
    record Maps(List<PartitionMap> maps, List<Witness> witnessed) implements MapProvider {
        @Override
        public List<PartitionMap> locate(SectorImage image) {
            return maps;
        }

        @Override
        public void check(PartitionMap map, Disk disk, Checks out) {
            // says nothing
        }

        @Override
        public List<Witness> witnesses(PartitionMap map, SectorImage image) {
            return witnessed;
        }
    }

    /** Recognises volumes at the given LBAs. */
    record Volumes(long bytes, Long... lbas) implements VolumeProvider {
        @Override
        public List<String> kinds() {
            return List.of("made");
        }

        @Override
        public List<Signature> signatures() {
            return List.of();
        }

        @Override
        public Optional<Claim> recognise(VolumeSite site) {
            return List.of(lbas).contains(site.range().first()) ? Optional.of(new Claim("made", 60, site, "made", null)) : Optional.empty();
        }

        @Override
        public Volume open(Claim claim) {
            VolumeInfo info = new VolumeInfo("made", claim.site().range(), "L", null, null, null, 4096L, bytes, null, null, List.of());
            return new Volume() {
                @Override
                public VolumeInfo info() {
                    return info;
                }

                @Override
                public VolumeSite site() {
                    return claim.site();
                }

                @Override
                public void check(Level level, Checks out) {
                    // says nothing
                }

                @Override
                public List<Structure> structures() {
                    return List.of();
                }
            };
        }
    }
}
