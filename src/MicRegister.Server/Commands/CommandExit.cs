using MicRegister.Documents.Sheets;
using MicRegister.Register.Facts;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Exit codes of all commands, and the one place that turns what users can get wrong into a message.</summary>
internal static class CommandExit
{
    /// <summary>Ready, whole, or done.</summary>
    public const int Good = 0;

    /// <summary>Not ready, or damaged.</summary>
    public const int NotReady = 1;

    /// <summary>Bad use or bad input; nothing was stored.</summary>
    public const int BadUse = 2;

    /// <summary>Runs a command's work.</summary>
    public static async Task<int> Run(Func<Task<int>> work)
    {
        try
        {
            return await work();
        }
        catch (StoreInUseException e)
        {
            Console.Error.WriteLine($"{e.Message} Nothing was stored; use {e.Address ?? "that program"} or stop it first.");
        }
        catch (Exception e) when (e is SheetException or BadUseException or IOException or UnauthorizedAccessException or FormatException)
        {
            Console.Error.WriteLine(e.Message);
        }
        catch (OperationCanceledException)
        {
            Console.Error.WriteLine("Stopped; nothing was stored.");
        }
        return BadUse;
    }
}
