namespace DeckLife.Data.Json;

/// <summary>A key of an input file: the one source of the reader's check, of the JSON Schema and of the documentation.</summary>
/// <param name="Name">The key.</param>
/// <param name="Shape">What its value may be.</param>
/// <param name="Description">What it means, with an example.</param>
/// <param name="IsRequired">Whether it must be there.</param>
/// <param name="Keys">Keys of an object or of the objects of an array.</param>
/// <param name="Choices">The allowed words.</param>
/// <param name="Example">A value that is allowed.</param>
internal sealed record JsonKey(
    string Name,
    JsonShape Shape,
    string Description,
    bool IsRequired = false,
    JsonKey[]? Keys = null,
    string[]? Choices = null,
    string? Example = null
);
