using System.Globalization;
using DeckLife.Data.Studies;
using DeckLife.Studies;
using Parquet;
using Xunit;

namespace DeckLife.Data.Tests.Studies;

public class StudyFileTests
{
    private const string Small = """
        {
          "study": "small", "seed": 4, "section": { "ageing": "none" },
          "inputs": [
            { "input": "cover", "unit": "in", "distribution": "normal", "mean": 2, "standardDeviation": 0.4, "lower": 0.5 },
            { "input": "surfaceChloride", "unit": "lb/yd3", "value": 12 },
            { "input": "diffusionCoefficient", "unit": "in2/yr", "distribution": "lognormal", "mean": 0.05, "standardDeviation": 0.025 },
            { "input": "chlorideThreshold", "unit": "lb/yd3", "value": 2.0 }
          ],
          "outputs": [ { "output": "timeToInitiation", "horizon_yr": 15 }, { "output": "contentAtBar", "age_yr": 15 } ],
          "methods": [ { "method": "monteCarlo", "draws": 5000, "keep": 3000 }, { "method": "swings" } ]
        }
        """;

    private static readonly StudyProvenance From = new("0.0-test", "small.json", "00ff", 4);

    private static StudyResult Run(StudyDefinition study)
    {
        var runner = new StudyRunner(study);
        var pieces = new StudyAccumulator(study);
        runner.Run(runner.Pieces, pieces);
        return runner.Finish(pieces);
    }

    [Fact]
    public void Read_UnitsOfTheTrade_BecomeCanonical()
    {
        var study = StudyFileReader.Read(Small).Study!;
        Assert.Equal(12 * 0.593276421257783, study.Inputs[1].Fixed, 1e-12);
        // The lognormal's own mean and deviation, not those of its logarithm.
        Assert.Equal(0.05 * 645.16, study.Inputs[2].Distribution!.Mean, 1e-10);
        Assert.Equal(0.025 * 645.16, study.Inputs[2].Distribution!.StandardDeviation, 1e-10);
        Assert.Equal(12.7, study.Inputs[0].Distribution!.Lower, 1e-12);
    }

    [Theory]
    [InlineData(
        "\"in\", \"distribution\": \"normal\"",
        "\"inch\", \"distribution\": \"normal\"",
        "inch"
    )]
    [InlineData("\"normal\"", "\"gaussian\"", "gaussian")]
    [InlineData("\"standardDeviation\": 0.4", "\"standardDeviation\": -0.4", "standardDeviation")]
    [InlineData("\"standardDeviation\": 0.4", "\"sd\": 0.4", "sd")]
    [InlineData("\"seed\": 4", "\"seed\": 4.5", "whole")]
    [InlineData("\"ageing\": \"none\"", "\"ageing\": \"some\"", "some")]
    [InlineData("\"value\": 12", "\"value\": \"12,5\"", "value")]
    [InlineData("\"horizon_yr\": 15", "\"horizon_yr\": 0", "horizon")]
    [InlineData("\"draws\": 5000", "\"draws\": 0", "draws")]
    [InlineData("\"lower\": 0.5", "\"lower\": -5", "DL6005")]
    [InlineData("{", "[", "JSON")]
    public void Read_Unusable_NamesThePlaceAndGivesNothing(string was, string becomes, string named)
    {
        var at = Small.IndexOf(was, StringComparison.Ordinal);
        var reading = StudyFileReader.Read(Small[..at] + becomes + Small[(at + was.Length)..]);
        Assert.Null(reading.Study);
        Assert.Contains(
            reading.Problems,
            p => (p.Code + p.Text).Contains(named, StringComparison.Ordinal)
        );
    }

    [Fact]
    public void ToCsv_AnyCulture_IsTheSameAndHoldsNoInfinity()
    {
        var result = Run(StudyFileReader.Read(Small).Study!);
        var texts = new[] { "en-US", "de-DE", "tr-TR" }.Select(name =>
        {
            var before = CultureInfo.CurrentCulture;
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(name);
            try
            {
                return StudyWriter.ToCsv(result, From)
                    + StudyWriter.ToJson(result, From)
                    + StudyWriter.ToText(result, From);
            }
            finally
            {
                CultureInfo.CurrentCulture = before;
            }
        });
        var text = Assert.Single(texts.Distinct());
        Assert.DoesNotContain("NaN", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Infinity", text, StringComparison.Ordinal);
        Assert.Contains(
            "# decklife 0.0-test; study file small.json, sha256 00ff; seed 4",
            text,
            StringComparison.Ordinal
        );
        Assert.Contains("not within the horizon", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Parquet_ReadBack_IsTheCsvAndMissingStaysMissing()
    {
        var study = StudyFileReader.Read(Small).Study!;
        using var stream = new MemoryStream();
        await StudyDrawsWriter.WriteParquetAsync(study, 3000, From, stream);
        using var csv = new StringWriter();
        StudyDrawsWriter.WriteCsv(study, 3000, From, csv);
        var lines = csv.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(3002, lines.Length);
        stream.Position = 0;
        var reader = await ParquetReader.CreateAsync(stream);
        await using (reader)
        {
            Assert.Equal("4", reader.CustomMetadata["decklife.seed"]);
            Assert.Equal("00ff", reader.CustomMetadata["decklife.study.sha256"]);
            Assert.Equal("yr", reader.CustomMetadata["unit.timeToInitiation_15yr"]);
            var names = reader.Schema.GetDataFields();
            Assert.Equal(lines[1].Split(','), names.Select(f => f.Name));
            var row = 2;
            var missing = 0;
            for (var g = 0; g < reader.RowGroupCount; g++)
            {
                using var group = reader.OpenRowGroupReader(g);
                var count = (int)group.RowCount;
                var cover = new double[count];
                var time = new double?[count];
                await group.ReadAsync<double>(names[1], cover.AsMemory());
                await group.ReadAsync<double>(names[3], time.AsMemory());
                for (var i = 0; i < count; i++, row++)
                {
                    var cells = lines[row].Split(',');
                    Assert.Equal(cells[1], cover[i].ToString("R", CultureInfo.InvariantCulture));
                    Assert.Equal(
                        cells[3],
                        time[i]?.ToString("R", CultureInfo.InvariantCulture) ?? ""
                    );
                    missing += time[i] is null ? 1 : 0;
                }
            }

            Assert.Equal(3002, row);
            Assert.InRange(missing, 100, 2900);
        }
    }

    [Fact]
    public async Task Folder_Written_HasEveryFileWithItsProvenance()
    {
        var folder = Directory.CreateTempSubdirectory("decklife-study");
        try
        {
            await StudyFolder.WriteAsync(
                folder.FullName,
                Run(StudyFileReader.Read(Small).Study!),
                From
            );
            foreach (var name in StudyFolder.FileNames)
            {
                var bytes = await File.ReadAllBytesAsync(Path.Combine(folder.FullName, name));
                var text = System.Text.Encoding.Latin1.GetString(bytes);
                Assert.Contains("00ff", text, StringComparison.Ordinal);
                Assert.Contains("0.0-test", text, StringComparison.Ordinal);
            }

            var columns = await File.ReadAllTextAsync(
                Path.Combine(folder.FullName, "columns.json")
            );
            Assert.Contains(
                "\"column\": \"diffusionCoefficient\"",
                columns,
                StringComparison.Ordinal
            );
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Fact]
    public void PartFile_CutOffOrOfAnotherStudy_IsContinuedOrRefused()
    {
        var study = StudyFileReader.Read(Small).Study!;
        var runner = new StudyRunner(study);
        var path = Path.GetTempFileName();
        try
        {
            using (var part = StudyPartFile.Open(path, From, 0))
            {
                foreach (var piece in runner.Pieces)
                {
                    part.Add(piece, runner.Compute(piece));
                }
            }

            var whole = new StudyAccumulator(study);
            Assert.Equal(new FileInfo(path).Length, StudyPartFile.Read(path, From, whole));
            Assert.Equal(runner.Pieces.Length, whole.Count);
            Assert.Null(StudyPartFile.Read(path, From with { Sha256 = "11" }, new(study)));
            Assert.Null(StudyPartFile.Read(path, From with { Seed = 5 }, new(study)));

            using (var stream = File.OpenWrite(path))
            {
                stream.SetLength(stream.Length - 5);
            }

            var cut = new StudyAccumulator(study);
            var sound = StudyPartFile.Read(path, From, cut)!.Value;
            Assert.Equal(runner.Pieces.Length - 1, cut.Count);
            using (var part = StudyPartFile.Open(path, From, sound))
            {
                part.Add(runner.Pieces[^1], runner.Compute(runner.Pieces[^1]));
            }

            var mended = new StudyAccumulator(study);
            Assert.NotNull(StudyPartFile.Read(path, From, mended));
            Assert.Equal(
                StudyWriter.ToCsv(runner.Finish(whole), From),
                StudyWriter.ToCsv(runner.Finish(mended), From)
            );
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact(Timeout = 60_000)]
    public async Task Read_GammaFarTooNarrow_RefusedSoonWithItsPlace()
    {
        var reading = await Task.Run(() =>
            StudyFileReader.Read(
                """
                { "study": "narrow", "seed": 7, "section": { "ageing": "none" },
                  "inputs": [ { "input": "surfaceChloride", "unit": "kg/m3", "distribution": "gamma", "mean": 12345678901234567890, "standardDeviation": 3 } ],
                  "outputs": [ { "output": "contentAtBar", "age_yr": 50 } ],
                  "methods": [ { "method": "swings" } ] }
                """
            )
        );

        Assert.Null(reading.Study);
        Assert.Contains(
            reading.Problems,
            p => p.Text.Contains("inputs[0].distribution", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void PartFile_AnyBitChanged_NeverGivesANumberThatWasNotWritten()
    {
        var study = StudyFileReader.Read(Small).Study!;
        var runner = new StudyRunner(study);
        var path = Path.GetTempFileName();
        try
        {
            using (var part = StudyPartFile.Open(path, From, 0))
            {
                foreach (var piece in runner.Pieces)
                {
                    part.Add(piece, runner.Compute(piece));
                }
            }

            var bytes = File.ReadAllBytes(path);
            var random = new Random(20311);
            for (var i = 0; i < 300; i++)
            {
                // Half of them among the heads at the front of the file and of its first piece.
                var at = random.Next(i % 2 == 0 ? Math.Min(bytes.Length, 400) : bytes.Length);
                var changed = bytes.ToArray();
                changed[at] ^= (byte)(1 << random.Next(8));
                File.WriteAllBytes(path, changed);
                var pieces = new StudyAccumulator(study);
                var sound = StudyPartFile.Read(path, From, pieces);

                Assert.True(sound is null || sound <= at, $"byte {at}: {sound} are called sound");
                Assert.True(pieces.Count < runner.Pieces.Length, $"byte {at}");
            }
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public void ToText_OfDrawsAndShares_SaysHowFarTheyHaveSettled()
    {
        var study = StudyFileReader
            .Read(
                Small
                    .Replace("\"draws\": 5000", "\"draws\": 20000", StringComparison.Ordinal)
                    .Replace(
                        "{ \"method\": \"swings\" }",
                        "{ \"method\": \"sobol\", \"points\": 256, \"bootstrap\": 100 }",
                        StringComparison.Ordinal
                    )
            )
            .Study!;
        var text = StudyWriter.ToText(Run(study), From);
        Assert.Contains(" after 8,192; ", text, StringComparison.Ordinal);
        Assert.Contains(" after 20,000", text, StringComparison.Ordinal);
        Assert.Contains("no total share moves by more than 0.", text, StringComparison.Ordinal);
        Assert.DoesNotContain("convergence", text, StringComparison.Ordinal);
    }
}
