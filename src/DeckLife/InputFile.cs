namespace DeckLife;

/// <summary>A file that a result rests on.</summary>
/// <param name="Name">Its name within the folder.</param>
/// <param name="Sha256">Its fingerprint, lower-case hexadecimal.</param>
public sealed record InputFile(string Name, string Sha256);
