/** Who does so much work has something to push against, W: cranks that spin without a chain take far less. */
export const WORKING_W = 60;
/** Below this a rider does nothing, W. */
export const IDLE_W = 30;
