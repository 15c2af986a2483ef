namespace MicRegister.Server.Pages.Shell;

/// <summary>Words as they stand at the begin of a line.</summary>
internal static class WordsOnPages
{
    extension(string words)
    {
        /// <summary>With a capital first letter.</summary>
        public string Capital => words.Length == 0 ? "" : char.ToUpperInvariant(words[0]) + words[1..];
    }
}
