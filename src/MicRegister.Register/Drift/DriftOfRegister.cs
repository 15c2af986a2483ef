namespace MicRegister.Register.Drift;

/// <summary>The drift of a register's devices.</summary>
public static class DriftOfRegister
{
    extension(Register register)
    {
        /// <summary>What was worked out about drift, handed on from state to state.</summary>
        public DriftMemory DriftMemory => register.Lasting<DriftMemory>();

        /// <summary>The drift of all devices, as it was known at the end of a day.</summary>
        public DriftBook Drift(DateOnly day) => register.Carried<DriftShelf>().Book(register, day);
    }
}
