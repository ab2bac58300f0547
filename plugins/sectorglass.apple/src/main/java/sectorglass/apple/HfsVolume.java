package sectorglass.apple;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;

import sectorglass.disk.Level;
import sectorglass.disk.Role;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeInfo;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Progress;
import sectorglass.verify.Checks;

/** An HFS+ or HFSX volume. */
final class HfsVolume implements Volume {
    private final VolumeSite site;
    private final HfsPlus.Place place;
    private final VolumeInfo info;
    private final HfsLayout layout;
    private List<Object> services;
    private List<Structure> structures;
    private List<Role> roles;

    HfsVolume(VolumeSite site, HfsPlus.Place place, VolumeInfo info) {
        this.site = site;
        this.place = place;
        this.info = info;
        this.layout = HfsLayout.of(site, place);
    }

    @Override
    public VolumeInfo info() {
        return info;
    }

    @Override
    public VolumeSite site() {
        return site;
    }

    @Override
    public void check(Level level, Checks out) {
        check(level, out, Progress.NONE);
    }

    @Override
    public void check(Level level, Checks out, Progress progress) {
        new HfsPlusChecks(site, place, layout).check(level, out, progress);
    }

    /** By the names in the root folder; read once. Common practice, no source. */
    @Override
    public synchronized List<Role> roles() {
        if (roles == null) {
            HfsTree catalog = layout == null ? null : layout.tree(HfsTree.Kind.CATALOG);
            roles = catalog == null ? List.of() : HfsRoles.of(catalog);
        }
        return roles;
    }

    @Override
    public OptionalLong address(String kind, long target) {
        if (kind.equals("cluster")) {
            return layout == null || target < 0 || target >= layout.blocks ? OptionalLong.empty() : OptionalLong.of(layout.range(target, 1).start());
        }
        return Volume.super.address(kind, target);
    }

    private synchronized List<Object> services() {
        if (services == null) {
            services = new ArrayList<>();
            if (layout != null) {
                HfsTree catalog = layout.tree(HfsTree.Kind.CATALOG);
                HfsFiles files = catalog == null ? null : new HfsFiles(layout, catalog);
                if (files != null) {
                    services.add(files);
                }
                services.add(new HfsAllocation(layout, files));
                services.add(new HfsReadOrder(layout));
            }
        }
        return services;
    }

    @Override
    public <T> Optional<T> capability(Class<T> kind) {
        return services().stream().filter(kind::isInstance).findFirst().map(kind::cast);
    }

    @Override
    public synchronized List<Structure> structures() {
        if (structures == null) {
            structures = listed();
        }
        return structures;
    }

    private List<Structure> listed() {
        List<Structure> all = new ArrayList<>();
        if (place.start() > 0) {
            all.add(new VolumeHeader(site, 1024, 162).structure("master directory block", "hfs_master_directory_block"));
        }
        all.add(new VolumeHeader(site, place.start() + 1024, 512).structure("volume header", "hfsplus_volume_header"));
        if (layout == null) {
            return all;
        }
        VolumeHeader copy = new VolumeHeader(site, place.start() + layout.blocks * layout.blockSize - 1024, 512);
        if (copy.inside()) {
            all.add(copy.structure("alternate volume header", "hfsplus_volume_header"));
        }
        for (HfsTree.Kind kind : HfsTree.Kind.values()) {
            HfsTree tree = layout.tree(kind);
            if (tree != null) {
                all.add(node(tree, 0));
            }
        }
        if (layout.journal() != null && layout.journal().info().inside()) {
            all.add(layout.journal().info().structure("journal info block", "hfsplus_journal_info_block"));
            VolumeHeader header = VolumeFacts.known(layout.journal()::header);
            if (header != null) {
                all.add(Structure.plain("journal header", "hfsplus_journal_header", header.whole().start(), HfsJournal.HEADER,
                        Map.of("little", layout.journal().little())));
            }
        }
        return List.copyOf(all);
    }

    private static Structure node(HfsTree tree, long number) {
        String format = number == 0 ? "hfsplus_btree_header" : "hfsplus_" + tree.kind.word + "_node";
        return new Structure(number == 0 ? tree.kind.word + " B-tree" : tree.kind.word + " node " + number, format, tree.range(number), Map.of(),
                image -> tree.node(number));
    }

    /** Also the nodes of the trees. */
    @Override
    public Optional<Structure> structureAt(long imageByte) {
        Optional<Structure> found = Volume.super.structureAt(imageByte);
        if (found.isPresent() || layout == null) {
            return found;
        }
        for (HfsTree.Kind kind : HfsTree.Kind.values()) {
            HfsTree tree = layout.tree(kind);
            long at = tree == null ? -1 : tree.fork.offset(imageByte - layout.firstByte());
            if (at >= 0 && at / tree.nodeSize < tree.nodes()) {
                return Optional.of(node(tree, at / tree.nodeSize));
            }
        }
        return Optional.empty();
    }
}
