using System.CommandLine;
using MicRegister.Documents.Import;

namespace MicRegister.Server.Commands;

/// <summary>Lists what an import understands.</summary>
internal static class ColumnsCommand
{
    public static Command Make()
    {
        var command = new Command("columns", "List the columns that an import understands, with the headers by which it knows them.");
        command.SetAction(_ =>
        {
            Console.WriteLine("Key | Meaning | Headers (capitals, accents, punctuation and units in brackets do not matter)");
            foreach (var column in Column.All) Console.WriteLine($"{column.Key} | {column.Meaning} | {string.Join("; ", column.Synonyms)}");
            Console.WriteLine();
            Console.WriteLine("A header that is a year (2021, Cal 2021, Sens. 2021-03 [mV/Pa]) holds the results of that year.");
            return CommandExit.Good;
        });
        return command;
    }
}
