using System.Globalization;
using MicRegister.Documents.Import;
using MicRegister.Server.Imports;

namespace MicRegister.Server.Commands;

/// <summary>Asks a person at a terminal what files leave open, each question once, with numbered answers.</summary>
/// <param name="from">What the person types.</param>
/// <param name="to">What the person reads.</param>
internal sealed class ImportDialogue(TextReader from, TextWriter to)
{
    private readonly Dictionary<string, string> _answers = new(StringComparer.Ordinal);
    private readonly HashSet<(string File, string Sheet, string Key)> _asked = [];
    private bool _isOver;

    /// <summary>
    /// The terminal of this program; null where what goes in or out is a file or another program, so that nobody sits there.
    /// </summary>
    public static ImportDialogue? AtTerminal =>
        Console.IsInputRedirected || Console.IsOutputRedirected ? null : new(Console.In, Console.Out);

    /// <summary>Works files out and asks until nothing is open that was not asked.</summary>
    /// <param name="work">Works them out with the answers for a file of a name.</param>
    public async Task<ImportAnswer> Ask(Func<Func<string, string>, Task<ImportAnswer>> work)
    {
        while (true)
        {
            var answer = await work(file => _answers.GetValueOrDefault(file, ""));
            var isAnswered = false;
            foreach (var file in answer.Files)
            {
                foreach (var question in file.Questions) isAnswered |= Ask(file.File, question);
                // No list speaks as of a later day than that of the import.
                if (file.AsksAsOf) isAnswered |= AskDay(file.File, answer.Today);
            }
            if (!isAnswered) return answer;
        }
    }

    private bool Ask(string file, ImportedFile.Question question)
    {
        if (_isOver || !_asked.Add((file, question.Sheet, KeyOf(question)))) return false;
        var where = file + (question.Sheet.Length > 0 ? ", sheet " + question.Sheet : "");
        to.WriteLine($"{where}, for {question.Rows} rows: {ImportText.Plain(question.Text)}");
        if (question.Examples.Count > 0) to.WriteLine("  for example " + ImportText.Plain(string.Join(", ", question.Examples)));
        for (var i = 0; i < question.Choices.Count; i++)
            to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {i + 1}  {ImportText.Plain(question.Choices[i].Words)}"));
        if (question is { Choices.Count: 0, Parts.Count: > 0 }) return AskParts(file, question);
        var most = question.Choices.Count + (question.Parts.Count > 0 ? 1 : 0);
        if (most > question.Choices.Count) to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {most}  Say it of each"));
        var prompt = string.Create(CultureInfo.InvariantCulture, $"1 to {most}, or nothing to leave it open: ");
        while (Line(prompt) is { Length: > 0 } text)
        {
            if (!int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var n) || n < 1 || n > most)
            {
                to.WriteLine($"'{ImportText.Plain(text)}' is none of them.");
                continue;
            }
            if (n > question.Choices.Count) return AskParts(file, question);
            Say(file, question.Choices[n - 1].Rule);
            return true;
        }
        return false;
    }

    private bool AskParts(string file, ImportedFile.Question question)
    {
        var isAnswered = false;
        foreach (var part in question.Parts) isAnswered |= Ask(file, part);
        return isAnswered;
    }

    // A form is another one where other parts are open.
    private static string KeyOf(ImportedFile.Question question) =>
        string.Join('\n', question.Parts.Select(p => p.Key).Prepend(question.Key));

    private bool AskDay(string file, DateOnly today)
    {
        if (_isOver || !_asked.Add((file, "", "as-of"))) return false;
        to.WriteLine($"{file}: {AsOfDay.Question}.");
        while (Line("A day such as 2024-11-30, or nothing to leave it open: ") is { Length: > 0 } text)
        {
            if (AsOfDay.Read(text) is { } day && day <= today)
            {
                Say(file, FormattableString.Invariant($"as-of := {day:yyyy-MM-dd}"));
                return true;
            }
            to.WriteLine(FormattableString.Invariant($"'{ImportText.Plain(text)}' is no day up to today, {today:yyyy-MM-dd}."));
        }
        return false;
    }

    private void Say(string file, string rule) => _answers[file] = LegendLines.With(_answers.GetValueOrDefault(file), rule);

    // Null where nothing more comes: then nothing more is asked.
    private string? Line(string prompt)
    {
        to.Write(prompt);
        to.Flush();
        var line = from.ReadLine();
        if (line is null) to.WriteLine();
        _isOver |= line is null;
        return line?.Trim();
    }
}
