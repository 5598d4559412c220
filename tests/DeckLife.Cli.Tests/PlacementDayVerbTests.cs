using System.Text.Json;
using Xunit;

namespace DeckLife.Cli.Tests;

public class PlacementDayVerbTests
{
    private static readonly string[] Reading =
    [
        "placement-day",
        "--air",
        "27 °C",
        "--concrete",
        "31 °C",
        "--humidity",
        "50 %",
        "--wind",
        "19 km/h",
    ];

    [Theory]
    [InlineData("0.10 lb/ft2/h", "above the limit over the whole band")]
    [InlineData("0.15 lb/ft²/h", "the band straddles the limit")]
    [InlineData("2 kg/m2/h", "below the limit over the whole band")]
    public void PlacementDay_Json_SaysWhereTheBandLies(string limit, string expected)
    {
        var (code, text, error) = Run([
            .. Reading,
            "--evaporation-limit",
            limit,
            "--least-air",
            "45 F",
            "--format",
            "json",
        ]);

        Assert.True(code == ExitCodes.Done, error);
        using var json = JsonDocument.Parse(text);
        var row = json.RootElement.GetProperty("readings")[0];
        // Uno 1998, computed independently: 1.151718505 kg/m²/h; the band is ±40 % of it.
        var band = row.GetProperty("evaporation_kg_per_m2_h");
        Assert.Equal(1.151718505, band.GetProperty("estimate").GetDouble(), 1e-8);
        Assert.Equal(1.4 * 1.151718505, band.GetProperty("high").GetDouble(), 1e-8);
        Assert.Equal(expected, row.GetProperty("evaporationAgainstLimit").GetString());
        Assert.Equal(
            "above the limit over the whole band",
            row.GetProperty("airAgainstLimit").GetString()
        );
    }

    [Fact]
    public void PlacementDay_Text_ShowsBothUnitsAndTheCaution()
    {
        var (code, text, _) = Run(Reading);

        Assert.Equal(ExitCodes.Done, code);
        Assert.Contains(
            "1.15 kg/m2/h (0.69 to 1.61), 0.24 lb/ft2/h",
            text,
            StringComparison.Ordinal
        );
        Assert.Contains("no limit given", text, StringComparison.Ordinal);
        Assert.Contains("engineer in charge decide", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--wind", "12")]
    [InlineData("--humidity", "150 %")]
    [InlineData("--air", "80")]
    [InlineData("--concrete", "300 F")]
    public void PlacementDay_UnitMissingOrImpossible_IsRefused(string option, string value)
    {
        string[] args = [.. Reading];
        args[Array.IndexOf(args, option) + 1] = value;

        var (code, text, error) = Run(args);

        Assert.Equal(ExitCodes.UnusableInput, code);
        Assert.Empty(text);
        Assert.NotEmpty(error);
    }

    [Fact]
    public void PlacementDay_HourlyTable_OneRowAnHourAndAPage()
    {
        var folder = Directory.CreateTempSubdirectory("decklife-placement").FullName;
        try
        {
            var table = Path.Combine(folder, "day.csv");
            File.WriteAllText(
                table,
                "time,air_c,concrete_c,humidity_percent,wind_km_per_h\n06:00,20,20,50,16\n12:00,27,31,50,19\n"
            );
            var page = Path.Combine(folder, "day.html");
            string[] call =
            [
                "placement-day",
                "--hours",
                table,
                "--evaporation-limit",
                "0.15 lb/ft2/h",
                "--format",
                "csv",
                "--chart",
                page,
            ];

            var (code, text, error) = Run(call);

            Assert.True(code == ExitCodes.Done, error);
            var rows = text.Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
            Assert.Equal(3, rows.Length);
            // Uno 1998, computed independently: 0.445070691 and 1.151718505 kg/m²/h.
            Assert.Equal(
                [0.445070691, 1.151718505],
                rows.Skip(1)
                    .Select(r =>
                        Math.Round(
                            double.Parse(
                                r.Split(',')[6],
                                System.Globalization.CultureInfo.InvariantCulture
                            ),
                            9
                        )
                    )
            );
            Assert.Contains(
                "Evaporation over the day",
                File.ReadAllText(page),
                StringComparison.Ordinal
            );
            Assert.Equal(ExitCodes.UnusableInput, Run(call).Code);
            Assert.Equal(ExitCodes.Done, Run([.. call, "--force"]).Code);
        }
        finally
        {
            Directory.Delete(folder, true);
        }
    }

    [Theory]
    [InlineData("time,air_c,concrete_c,humidity_percent\n1,20,20,50\n", "wind")]
    [InlineData("time,air_c,concrete_c,humidity_percent,wind_mph\n1,20,,50,5\n", "row 2")]
    [InlineData("time,air_c,concrete_c,humidity_percent,wind_mph\n1,20,20,150,5\n", "humidity")]
    [InlineData("time,air_c,concrete_c,humidity_percent,wind_mph\n", "DL1037")]
    public void PlacementDay_WrongTable_SaysWhere(string content, string expected)
    {
        var table = Path.GetTempFileName();
        try
        {
            File.WriteAllText(table, content);
            var (code, text, error) = Run(["placement-day", "--hours", table]);

            Assert.Equal(ExitCodes.UnusableInput, code);
            Assert.Empty(text);
            Assert.Contains(expected, error, StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(table);
        }
    }

    private static (int Code, string Output, string Error) Run(string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = CommandShell.Run(args, output, error);
        return (code, output.ToString(), error.ToString());
    }
}
