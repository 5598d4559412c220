using System.Runtime.CompilerServices;
using System.Text;
using DeckLife.Data.Folders;
using DeckLife.Data.Ingress;
using DeckLife.Data.Json;
using DeckLife.Data.Networks;
using DeckLife.Data.Placement;
using DeckLife.Data.Studies;
using DeckLife.Data.Tables;
using DeckLife.Data.Tests.Folders;
using DeckLife.Data.Tests.Workbooks;
using DeckLife.Diagnostics;
using DeckLife.Network.Decks;
using DeckLife.Quantities;
using DeckLife.Studies;

namespace DeckLife.Data.Tests.Mutations;

/// <summary>Every reader of this library, each with sound inputs to change.</summary>
internal sealed class FuzzTargets : IDisposable
{
    private readonly DirectoryInfo place = Directory.CreateTempSubdirectory("decklife-fuzz-");

    public FuzzTargets() =>
        All = [
            Text("chloride table", 150, Chlorides, b => Chloride(b, "chlorides.csv")),
            Text(
                "cover table",
                80,
                ["x_ft,y_ft,cover_in\n1,2,2 1/4\n2,3,1.75\n5,6,2,\n"],
                b => Survey("cover.csv", b, (s, p) => CoverTable.Read(s, new(), p) is not null)
            ),
            Text(
                "half-cell list",
                80,
                ["x_ft,y_ft,potential_mv_cse\n1,2,-120\n2,3,-351.5\n5,6,NA\n"],
                HalfCell
            ),
            Text(
                "half-cell grid",
                60,
                ["# units: potential mV CSE\ny_ft\\x_ft,0,5,10\n2,-120,-210,\n6,NA,-350,-\n"],
                HalfCell
            ),
            Text(
                "sounding table",
                80,
                Soundings,
                b =>
                    Survey("sounding.csv", b, (s, p) => SoundingTable.Read(s, new(), p) is not null)
            ),
            Text(
                "placement hours",
                40,
                [
                    "time,air_c,concrete_c,humidity_percent,wind_km_per_h\n09:00,20,22,60,12\n10:00,24,25,45,18\n",
                ],
                b => (PlacementTable.Read("hours.csv", b, out var problems).Length > 0, problems)
            ),
            Json(
                "deck.json",
                150,
                [Minimal("deck.json"), Demo("quillmarsh-crossing/deck.json")],
                DeckJson
            ),
            Json("network.json", 60, [Demo("harrowmere-district/network.json")], NetworkJson),
            Json("study file", 120, Studies, Study),
            Json(
                "ingress case",
                80,
                IngressCases,
                b =>
                {
                    var reading = IngressCaseReader.Read(Encoding.UTF8.GetString(b));
                    return (reading.Case is not null, reading.Problems);
                }
            ),
            new(
                "workbook",
                50,
                [Workbook],
                (s, b) => new ArchiveMutator(s).Mutate(b),
                b => Chloride(b, "lab.xlsx")
            ),
            new(
                "network shard",
                25,
                [Shard()],
                (s, b) => new ArchiveMutator(s).Bytes(b),
                ReadShard
            ),
            new(
                "study part",
                25,
                [Part()],
                // Half of the changes in the heads of the file and of its first piece.
                (s, b) =>
                    s % 2 == 0
                        ? new ArchiveMutator(s).Bytes(b)
                        : [.. new ArchiveMutator(s).Bytes(b[..400]), .. b[400..]],
                ReadPart
            ),
        ];

    public IReadOnlyList<FuzzTarget> All { get; }

    public void Dispose() => place.Delete(recursive: true);

    private static FuzzTarget Text(
        string name,
        int weight,
        IEnumerable<string> originals,
        Func<byte[], (bool, IReadOnlyCollection<Diagnostic>?)> read
    ) =>
        new(
            name,
            weight,
            [.. originals.Select(Encoding.UTF8.GetBytes)],
            (seed, bytes) => new FolderMutator(seed).Mutate(bytes),
            read
        );

    private static FuzzTarget Json(
        string name,
        int weight,
        IEnumerable<byte[]> originals,
        Func<byte[], (bool, IReadOnlyCollection<Diagnostic>?)> read
    ) =>
        new(
            name,
            weight,
            [.. originals],
            (seed, bytes) => new JsonMutator(seed).Mutate(bytes),
            read
        );

    private static string[] Chlorides =>
        [
            Encoding.UTF8.GetString(Minimal("chlorides.csv")),
            "core,top_mm,bottom_mm,chloride_kg_per_m3,x_m,y_m,on_crack,replicate,age_yr\nC1,0,10,3.1,1,2,no,1,20\nC1,10,20,<0.5,1,2,no,1,20\nC2,0,10,2.2,4,2,yes,1,21\n",
            "Invented laboratory\ncore;sampled;first_salt;depth;unit;chloride;detection_limit_percent\nC1;2031-06-15;2001-06-15;1/2;in;0,35 % of concrete;0,01\nC1;2031-06-15;2001-06-15;1 1/2;in;ND;0,01\n",
        ];

    private static string[] Soundings =>
        [
            "finding,x_min_ft,x_max_ft,y_min_ft,y_max_ft\ndelaminated,70,92,8,14\nspalled,10,12,8,9\n",
            "finding,corners_ft\ndelaminated,0 0; 10 0; 10 8; 0 8\n",
            "finding,area_ft2\nhollow,120\npatched,30\n",
            "finding,station_from_ft,station_to_ft,offset_from_ft,offset_to_ft\ndelaminated,12+70,12+92,8,14\n",
        ];

    private static IEnumerable<byte[]> IngressCases =>
        Directory
            .GetFiles(Root("reference-checks/ingress-cases"), "*.json")
            .Order(StringComparer.Ordinal)
            .Select(File.ReadAllBytes);

    // The study of a deck reads the smallest deck there is.
    private static IEnumerable<byte[]> Studies =>
        Directory
            .GetFiles(Root("demo-data/studies"), "*.json")
            .Order(StringComparer.Ordinal)
            .Select(f =>
                Encoding.UTF8.GetBytes(
                    File.ReadAllText(f)
                        .Replace("../quillmarsh-crossing", "minimal-deck", StringComparison.Ordinal)
                )
            );

    private static byte[] Workbook =>
        InventedWorkbook.Write(
            (
                "chlorides",
                [
                    ["core", "top_in", "bottom_in", "chloride_lb_per_yd3", "sampled"],
                    ["C1", 0.25, 0.75, 9.1, new DateOnly(2031, 6, 15)],
                    ["C1", "3/4", "1 1/4", "<0.5", new DateOnly(2031, 6, 15)],
                ]
            )
        );

    private static byte[] Minimal(string name) =>
        File.ReadAllBytes(Path.Combine(DeckFolderTests.Inputs, "minimal-deck", name));

    private static byte[] Demo(string name) => File.ReadAllBytes(Root("demo-data/" + name));

    private static string Root(string name, [CallerFilePath] string path = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(path)!, "../../..", name));

    private static (bool, IReadOnlyCollection<Diagnostic>) Chloride(byte[] bytes, string name)
    {
        var result = ChlorideTable.Read(
            name,
            bytes,
            new ChlorideTableOptions { ExposureAge = Age.FromYears(20), Mix = new(2350, 350) }
        );
        return (result.IsUsable, result.Problems);
    }

    private static (bool, IReadOnlyCollection<Diagnostic>) HalfCell(byte[] bytes) =>
        Survey("half-cell.csv", bytes, (s, p) => HalfCellTable.Read(s, new(), p) is not null);

    private static (bool, IReadOnlyCollection<Diagnostic>) Survey(
        string name,
        byte[] bytes,
        Func<ITableSource, ProblemList, bool> read
    )
    {
        var problems = new ProblemList(name);
        var has =
            TableSources.Open(name, bytes, name, problems) is { } source && read(source, problems);
        return (has && !problems.HasErrors, problems.ToImmutable());
    }

    private static (bool, IReadOnlyCollection<Diagnostic>) DeckJson(byte[] bytes)
    {
        var problems = new ProblemList("deck.json");
        if (
            !TextDecoding.TryToUtf8(bytes, problems, out var utf8)
            || JsonTree.ReadObject(utf8, "deck.json", problems) is not { } root
        )
        {
            return (false, problems.ToImmutable());
        }

        JsonCheck.Check(root, DeckKeys.All, "", problems);
        _ = DeckJsonReader.Read(root, problems);
        return (!problems.HasErrors, problems.ToImmutable());
    }

    private static (bool, IReadOnlyCollection<Diagnostic>) Study(byte[] bytes)
    {
        var reading = StudyFileReader.Read(
            Encoding.UTF8.GetString(bytes).TrimStart('\uFEFF'),
            DeckFolderTests.Inputs
        );
        return (reading.Study is not null, reading.Problems);
    }

    private (bool, IReadOnlyCollection<Diagnostic>) NetworkJson(byte[] bytes)
    {
        File.WriteAllBytes(Path.Combine(place.FullName, NetworkFolder.NetworkFile), bytes);
        var reading = NetworkFolder.Read(place.FullName);
        return (reading.Network is not null, reading.Problems);
    }

    private byte[] Shard()
    {
        var path = Path.Combine(place.FullName, "shard");
        var records = Enumerable
            .Range(0, 6)
            .Select(i => new DeckRecord
            {
                Index = i,
                Folder = "d" + i,
                Name = "Deck " + i,
                Failure = i == 3 ? "broken" : null,
                Options =
                    i == 3
                        ? []
                        : [new(null, null, [], [1, 2, 3]), new("overlay", 2031, [5, 0], [1, 1, 1])],
            });
        NetworkShardFile
            .WriteAsync(
                path,
                "key",
                [
                    [.. records],
                ]
            )
            .GetAwaiter()
            .GetResult();
        return File.ReadAllBytes(path);
    }

    // Whatever was changed, it is not a shard any more, unless nothing was.
    private (bool, IReadOnlyCollection<Diagnostic>?) ReadShard(byte[] bytes)
    {
        var path = Path.Combine(place.FullName, "shard");
        File.WriteAllBytes(path, bytes);
        if (NetworkShardFile.KeyOf(path) is null)
        {
            return (false, null);
        }

        _ = NetworkShardFile.Read(path).ToArray();
        return (true, null);
    }

    private static readonly StudyDefinition PartStudy = StudyFileReader
        .Read(
            """
            { "study": "part", "seed": 1, "section": { "ageing": "none" },
              "inputs": [
                { "input": "cover", "unit": "mm", "distribution": "normal", "mean": 50, "standardDeviation": 8, "lower": 5 },
                { "input": "surfaceChloride", "unit": "kg/m3", "value": 7 },
                { "input": "diffusionCoefficient", "unit": "mm2/yr", "value": 30 },
                { "input": "initialChloride", "unit": "kg/m3", "value": 0.1 },
                { "input": "chlorideThreshold", "unit": "kg/m3", "value": 1.2 } ],
              "outputs": [ { "output": "contentAtBar", "age_yr": 30 } ],
              "methods": [ { "method": "swings" }, { "method": "monteCarlo", "draws": 5000 } ] }
            """
        )
        .Study!;

    private static readonly StudyProvenance PartOf = new("0.0-test", "study.json", "00", 1);

    private byte[] Part()
    {
        var path = Path.Combine(place.FullName, "part");
        var runner = new StudyRunner(PartStudy);
        using (var part = StudyPartFile.Open(path, PartOf, 0))
        {
            foreach (var piece in runner.Pieces)
            {
                part.Add(piece, runner.Compute(piece));
            }
        }

        return File.ReadAllBytes(path);
    }

    private (bool, IReadOnlyCollection<Diagnostic>?) ReadPart(byte[] bytes)
    {
        var path = Path.Combine(place.FullName, "part");
        File.WriteAllBytes(path, bytes);
        return (StudyPartFile.Read(path, PartOf, new(PartStudy)) > 0, null);
    }
}
