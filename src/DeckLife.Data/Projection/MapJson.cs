using System.Text.Json;
using DeckLife.Mapping;
using DeckLife.Numerics.SpatialStatistics;

namespace DeckLife.Data.Projection;

/// <summary>Writes where on the deck corrosion and damage are probable.</summary>
internal static class MapJson
{
    /// <summary>Writes the member <c>map</c>.</summary>
    public static void Write(Utf8JsonWriter json, DeckMap map)
    {
        json.WriteStartObject("map");
        json.WriteNumber("cellLength_m", map.CellLengthM);
        json.WriteNumber("cellWidth_m", map.CellWidthM);
        json.WriteStartObject("correlationLength");
        json.WriteNumber("p05_m", map.LengthP05M);
        json.WriteNumber("p50_m", map.LengthM);
        json.WriteNumber("p95_m", map.LengthP95M);
        json.WriteEndObject();
        json.WriteNumber("localShare", map.LocalShare);
        json.WriteNumber("coverWeight", map.CoverWeight);
        json.WriteNumber("coreWeight", map.CoreWeight);
        json.WriteNumber("coresWithPosition", map.Cores);
        json.WriteNumber("zoneShare", map.ZoneShare);
        Field(json, "potentials", map.Potentials);
        Field(json, "cover", map.Cover);
        json.WriteStartArray("later_yr");
        foreach (var year in map.LaterYr)
        {
            json.WriteNumberValue(year);
        }

        json.WriteEndArray();
        json.WriteStartArray("zones");
        foreach (var zone in map.Zones)
        {
            json.WriteStartObject();
            json.WriteString("name", zone.Name);
            json.WriteNumber("areaShare", zone.AreaShare);
            json.WriteNumber("nodes", zone.Nodes);
            if (zone.CoverMm is { } cover)
            {
                json.WriteNumber("cover_mm", cover);
            }

            Shares(json, zone.Active, zone.Damaged, zone.DamagedLater);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("cells");
        foreach (var cell in map.Cells)
        {
            json.WriteStartObject();
            json.WriteNumber("x_m", cell.X);
            json.WriteNumber("y_m", cell.Y);
            json.WriteNumber("nodes", cell.Nodes);
            json.WriteNumber("unsound", cell.Unsound);
            json.WriteNumber("patched", cell.Patched);
            Shares(json, cell.Active, cell.Damaged, cell.DamagedLater);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Shares(
        Utf8JsonWriter json,
        double active,
        double damaged,
        IEnumerable<double> later
    )
    {
        json.WriteNumber("active", active);
        json.WriteNumber("damaged", damaged);
        json.WriteStartArray("damagedOrPatchedLater");
        foreach (var share in later)
        {
            json.WriteNumberValue(share);
        }

        json.WriteEndArray();
    }

    // A limit that the readings do not set is left out.
    private static void Field(Utf8JsonWriter json, string name, ExponentialFieldEstimate? field)
    {
        if (field is null)
        {
            return;
        }

        json.WriteStartObject(name);
        json.WriteNumber("correlationLength_m", field.Length);
        if (field.Lower95 is { } lower)
        {
            json.WriteNumber("lower95_m", lower);
        }

        if (field.Upper95 is { } upper)
        {
            json.WriteNumber("upper95_m", upper);
        }

        json.WriteNumber("nuggetShare", field.NuggetShare);
        json.WriteNumber("likelihoodRatio", field.LikelihoodRatio);
        json.WriteEndObject();
    }
}
