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

    private static (int Code, string Output, string Error) Run(string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = CommandShell.Run(args, output, error);
        return (code, output.ToString(), error.ToString());
    }
}
